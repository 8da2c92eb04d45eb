package rewrite

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
)

const before = `# The yard.
service_life = "5 y"   # long

[[cameras]]
label = "Gate"
count = 4
bitrate = "4 Mbit/s"
retention = "30 d"

# What could be bought.
[[choices]]            # the old ones
label = "mine"
drive = "12 TB"
layout = "RAID 6"
drives = 8
[choices.care]
response = "5 h"

# Another.
[[choices]]
label = "yours"
drive = "12 TB"
layout = "JBOD"
drives = 8

# --- Drives -----------

[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"
`

const after = `# The yard.
service_life = "5 y"   # long

[[cameras]]
label = "Gate"
count = 4
bitrate = "4 Mbit/s"
retention = "30 d"

# What could be bought.
[[choices]]
label = "new \"one\""
drive = "12 TB"
layout = "RAID 60"
drives = 8
groups = 2

[[choices]]
label = "5+3"
drive = "12 TB"
layout = "5+3"
drives = 8

# --- Drives -----------

[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"
`

var fresh = []array.Choice{
	{Label: `new "one"`, Drive: array.Drive{Label: "12 TB"}, Layout: array.Layout{Level: array.RAID60}, Drives: 8, Groups: 2},
	{Label: "5+3", Drive: array.Drive{Label: "12 TB"}, Layout: array.Layout{Level: array.Erasure, Data: 5, Parity: 3}, Drives: 8, Groups: 1},
}

func TestWithChoices(t *testing.T) {
	t.Parallel()
	f, err := site.Read(strings.NewReader(before), "")
	if err != nil {
		t.Fatal(err)
	}
	if got := string(WithChoices([]byte(before), f.Site.Cameras, fresh)); got != after {
		t.Errorf("%s", got)
	}
	crlf := func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") }
	if got := string(WithChoices([]byte(crlf(before)), f.Site.Cameras, fresh)); got != crlf(after) {
		t.Errorf("with CRLF: %q", got)
	}
	// Wherever the old choices stood, and where there were none, the new ones are
	// read, and all the rest as it was.
	small := readText(t, "../testdata/small.toml")
	body, _, _ := strings.Cut(small, "[[choices]]")
	for name, in := range map[string]string{
		"none":            body,
		"no last newline": strings.TrimSuffix(body, "\n"),
		"last":            small,
		"CRLF":            crlf(before),
		"CRLF, none":      crlf("# 1\n# 2\n# 3\n# 4\n" + body),
		"CRLF, no end":    crlf("# 1\n# 2\n# 3\n# 4\n"+body) + "power = \"7 W\"",
		"mark":            "\ufeff" + before,
		"a key":           "choices = [ { label = \"a\", drive = \"12 TB\",\n # of all\nlayout = \"JBOD\", drives = 2 } ]\n# life\n" + body,
		"everything":      readText(t, "../testdata/everything.toml"),
		"last, comments":  small + "# the end\n[run]\nseed = 7\n",
	} {
		f, err := site.Read(strings.NewReader(in), "", site.ChoicesOptional())
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		model := f.Site.Drives[0]
		choices := append([]array.Choice(nil), fresh...)
		for i := range choices {
			choices[i].Drive = model
		}
		out := WithChoices([]byte(in), f.Site.Cameras, choices)
		if ends := strings.Count(string(out), "\r\n"); ends != 0 && ends != strings.Count(string(out), "\n") || (ends > 0) != strings.HasPrefix(name, "CRLF") {
			t.Errorf("%s: %d CRLF in %q", name, ends, out)
		}
		g, err := site.Read(strings.NewReader(string(out)), "")
		if err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
			continue
		}
		if len(g.Site.Choices) != 2 || g.Site.Choices[0].Label != fresh[0].Label || g.Site.Choices[1].Layout != fresh[1].Layout || g.Site.Choices[0].Groups != 2 {
			t.Errorf("%s: %+v", name, g.Site.Choices)
		}
		if !reflect.DeepEqual(g.Site.Cameras, f.Site.Cameras) || g.Run != f.Run || !reflect.DeepEqual(g.Care, f.Care) || len(g.Site.Drives) != len(f.Site.Drives) {
			t.Errorf("%s: the rest changed\n%s", name, out)
		}
		if n := strings.Count(string(out), "#"); strings.HasPrefix(name, "CRLF") && n != 4 {
			t.Errorf("%s: %d comments\n%s", name, n, out)
		}
	}
}

func readText(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
