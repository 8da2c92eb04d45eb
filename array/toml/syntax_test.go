package toml

import (
	"strings"
	"testing"
)

// TestMistakesOfSyntax: a mistake of syntax is one error, which stands on the line
// where it was made, and the keys around it are read.
func TestMistakesOfSyntax(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ text, want string }{
		{`life = { afr = "1.5 %"`, `s.toml:2: d.life: found "life = { afr = \"1.5 %\""; right would be the value with its closing bracket or quotes`},
		{`life = ["1 %", "2 %"`, `s.toml:2: d.life: found "life = [\"1 %\", \"2 %\""; right would be the value with its closing`},
		{"life = [\n\"1 %\",\n\"2 %\"", `s.toml:2: d.life: found "life = ["; right would be the value with its closing`},
		{"life = {\n afr = 1.5 %,\n}", `s.toml:3: found "afr = 1.5 %,"; right would be in quotes: afr = "1.5 %"`},
		{"life = [\n \"1 %\",\n 2 %,\n]", `s.toml:4: found "2 %,"; right would be TOML:`},
		{`life = { afr = "1.5 % }`, `s.toml:2: d.life: found`},
		{`life = { afr = 1.5 % }`, `s.toml:2: d.life: found`},
		{`life = 12 TB`, `s.toml:2: d.life: found "life = 12 TB"; right would be in quotes: life = "12 TB"`},
		{`life =`, `s.toml:2: d.life: found "life ="; right would be life = …, with a value`},
	} {
		d, err := Parse(strings.NewReader("[d]\n"+c.text+"\nafter = 1\n[e]\nx = 1\n"), "s.toml")
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Errs) != 1 || !strings.HasPrefix(d.Errs.Error(), c.want) {
			t.Errorf("%s:\n%v\nwant %s", c.text, d.Errs, c.want)
		}
		if life := d.Root.Find([]Step{{Key: "d"}, {Key: "life"}}); life == nil || life.Kind != BrokenNode {
			t.Errorf("%s: life is %+v", c.text, life)
		}
		for _, at := range [][]Step{{{Key: "d"}, {Key: "after"}}, {{Key: "e"}, {Key: "x"}}} {
			if n := d.Root.Find(at); (n == nil || n.Kind != IntegerNode) && !d.Cut {
				t.Errorf("%s: %v is %+v", c.text, at, n)
			}
		}
	}
	// Nothing can be read behind text that has no end.
	d, err := Parse(strings.NewReader("[d]\nlife = \"\"\"1.5 %\nafter = 1\n"), "s.toml")
	if err != nil || len(d.Errs) != 1 || d.Errs[0].Line != 2 || !d.Cut {
		t.Errorf("%v %v %v", err, d.Errs, d.Cut)
	}
}

// TestJoiners: what joins letters and emoji is part of a text, and shown as it is;
// by itself it is none.
func TestJoiners(t *testing.T) {
	t.Parallel()
	schema := NewSchema([]Key{{Path: "name", Kind: Text, Doc: "A name."}})
	for text, right := range map[string]bool{
		"می\u200cخواهم": true, "ശ്രീ\u200d": true, "क्\u200dष": true, "👩\u200d🚒": true, "🏳\ufe0f\u200d🌈": true,
		"\u200d": false, " \u200c\u200d": false, "a\u200bb": false, "a\u202eb": false, "a\u2066b": false, "a\u00adb": false,
	} {
		d, err := Parse(strings.NewReader("name = \""+text+"\""), "s.toml")
		if err != nil || len(d.Errs) > 0 {
			t.Fatal(err, d.Errs)
		}
		r := &Reader{Document: d, Schema: schema}
		var got string
		r.Table(d.Root, "", "").Text("name", &got)
		if (len(d.Errs) == 0) != right || right && got != text {
			t.Errorf("%+q: %+q %v", text, got, d.Errs)
		}
	}
	for key, want := range map[string]string{
		"می\u200cخواهم": "drives.می\u200cخواهم", "हिन्दी": "drives.हिन्दी", "👩\u200d🚒": "drives.\"👩\u200d🚒\"", "\u200d": "drives.\"\u200d\"",
	} {
		if got := Join("drives", key); got != want {
			t.Errorf("%+q is %+q", key, got)
		}
	}
}
