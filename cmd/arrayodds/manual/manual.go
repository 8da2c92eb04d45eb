// Package manual writes the manual page of the program from the table of commands that
// the program itself reads, in the macros of man(7). It has the words of --help.
package manual

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v2"
)

// Write writes the manual page of an app and its commands.
func Write(w io.Writer, app *cli.App) error {
	out := bufio.NewWriter(w)
	name := strings.ToUpper(app.Name)
	// Without a date: the page is of a version, and the same one at any time.
	fmt.Fprintf(out, ".TH %s 1 \"\" \"%s\" \"User commands\"\n", name, escape(app.Name))
	fmt.Fprintf(out, ".SH NAME\n%s \\- %s\n", escape(app.Name), escape(app.Usage))
	fmt.Fprintf(out, ".SH SYNOPSIS\n.nf\n")
	for _, c := range app.Commands {
		fmt.Fprintf(out, "%s\n", line(c.UsageText))
	}
	fmt.Fprintf(out, ".fi\n.SH DESCRIPTION\n")
	description(out, app.Description)
	fmt.Fprintf(out, ".SH COMMANDS\n")
	for _, c := range app.Commands {
		fmt.Fprintf(out, ".SS %s\n%s\n.PP\n%s\n.PP\n", escape(c.Name), line(upperFirst(c.Usage)+"."), bold(c.UsageText))
		description(out, c.Description)
		for _, f := range c.Flags {
			if f != cli.HelpFlag { // which the library adds to the command that runs
				flag(out, f)
			}
		}
	}
	fmt.Fprintf(out, ".SH OPTIONS\n")
	for _, f := range app.Flags {
		flag(out, f)
	}
	return out.Flush()
}

// description writes the text of a help: paragraphs, and lines that are set in as they
// are.
func description(w io.Writer, text string) {
	asItIs, begin := false, false
	for l := range strings.Lines(text) {
		l = strings.TrimRight(l, "\n")
		setIn := strings.HasPrefix(l, "   ")
		if setIn != asItIs {
			asItIs = setIn
			if asItIs {
				fmt.Fprintf(w, ".PP\n.RS 4\n.nf\n")
			} else {
				fmt.Fprintf(w, ".fi\n.RE\n")
			}
			begin = asItIs
		}
		switch {
		case l == "":
			begin = true
			continue
		case l == "EXAMPLE":
			fmt.Fprintf(w, ".PP\nExample:\n")
			continue
		case begin && !asItIs:
			fmt.Fprintf(w, ".PP\n")
		}
		begin = false
		fmt.Fprintf(w, "%s\n", line(strings.TrimPrefix(l, "   ")))
	}
	if asItIs {
		fmt.Fprintf(w, ".fi\n.RE\n")
	}
}

// flag writes a flag, what it takes and what it does.
func flag(w io.Writer, f cli.Flag) {
	doc, ok := f.(cli.DocGenerationFlag)
	if !ok {
		return
	}
	var names []string
	for _, n := range f.Names() {
		dashes := "--"
		if len(n) == 1 {
			dashes = "-"
		}
		names = append(names, `\fB`+escape(dashes+n)+`\fR`)
	}
	usage := doc.GetUsage()
	takes := ""
	if doc.TakesValue() {
		before, after, _ := strings.Cut(usage, "`")
		word, rest, _ := strings.Cut(after, "`")
		takes = ` \fI` + escape(word) + `\fR`
		usage = before + word + rest
	}
	if text := doc.GetDefaultText(); doc.TakesValue() && text != "" {
		usage += " (default: " + text + ")"
	}
	fmt.Fprintf(w, ".TP\n%s%s\n%s\n", strings.Join(names, ", "), takes, line(upperFirst(usage)+"."))
}

// escape returns a text in which nothing means anything to the formatter.
func escape(text string) string {
	return strings.NewReplacer(`\`, `\e`, `-`, `\-`, `"`, `\(dq`, `'`, `\(aq`, "^", `\(ha`, "~", `\(ti`, "`", `\(ga`).Replace(text)
}

// line returns a text as a line of its own, which is no request to the formatter.
func line(text string) string {
	if strings.HasPrefix(text, ".") {
		return `\&` + escape(text)
	}
	return escape(text)
}

func bold(text string) string { return `\fB` + escape(text) + `\fR` }

func upperFirst(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
