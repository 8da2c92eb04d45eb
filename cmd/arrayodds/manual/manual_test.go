package manual

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

var app = &cli.App{
	Name:  "weigh",
	Usage: "what it weighs",
	Description: `Weighs. A line may begin with a stop:
.SH is none of the formatter's here, nor is \fB.

   weigh one
     and two

And on.

EXAMPLE
   weigh "a - b"`,
	Flags: []cli.Flag{&cli.BoolFlag{Name: "version", Aliases: []string{"v"}, Usage: "print it"}},
	Commands: []*cli.Command{{
		Name: "gross", Usage: "all of it", UsageText: "weigh gross SITE.toml", Description: "Of all.\n\nEXAMPLE\n   weigh gross a.toml",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "page", Usage: "write it to `FILE`", DefaultText: "a.html"},
			&cli.BoolFlag{Name: "net", Usage: "without"},
			cli.HelpFlag,
		},
	}},
}

const want = `.TH WEIGH 1 "" "weigh" "User commands"
.SH NAME
weigh \- what it weighs
.SH SYNOPSIS
.nf
weigh gross SITE.toml
.fi
.SH DESCRIPTION
Weighs. A line may begin with a stop:
\&.SH is none of the formatter\(aqs here, nor is \efB.
.PP
.RS 4
.nf
weigh one
  and two
.fi
.RE
.PP
And on.
.PP
Example:
.PP
.RS 4
.nf
weigh \(dqa \- b\(dq
.fi
.RE
.SH COMMANDS
.SS gross
All of it.
.PP
\fBweigh gross SITE.toml\fR
.PP
Of all.
.PP
Example:
.PP
.RS 4
.nf
weigh gross a.toml
.fi
.RE
.TP
\fB\-\-page\fR \fIFILE\fR
Write it to FILE (default: a.html).
.TP
\fB\-\-net\fR
Without.
.SH OPTIONS
.TP
\fB\-\-version\fR, \fB\-v\fR
Print it.
`

func TestWrite(t *testing.T) {
	t.Parallel()
	var got strings.Builder
	if err := Write(&got, app); err != nil {
		t.Fatal(err)
	}
	if got.String() != want {
		t.Errorf("the page is\n%s\nwant\n%s", got.String(), want)
	}
}

// TestFormats has the page read by a formatter that says what is wrong with it. That
// there is no date is meant.
func TestFormats(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("mandoc"); err != nil {
		t.Skip("mandoc is not installed, so the page is not formatted (Debian: apt-get install mandoc)")
	}
	var page strings.Builder
	if err := Write(&page, app); err != nil {
		t.Fatal(err)
	}
	lint := exec.CommandContext(t.Context(), "mandoc", "-T", "lint", "-W", "warning")
	lint.Stdin = strings.NewReader(page.String())
	said, _ := lint.Output() // the status is that of what it says
	for line := range strings.Lines(string(said)) {
		if !strings.Contains(line, "missing date") {
			t.Errorf("the formatter says: %s", line)
		}
	}
	format := exec.CommandContext(t.Context(), "mandoc", "-T", "ascii", "-O", "width=78")
	format.Stdin = strings.NewReader(page.String())
	shown, err := format.Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{".SH is none of the formatter's here, nor is \\fB.", `weigh "a - b"`} {
		if !strings.Contains(strings.Join(strings.Fields(string(shown)), " "), want) {
			t.Errorf("the page shown lacks %q:\n%s", want, shown)
		}
	}
}
