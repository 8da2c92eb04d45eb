package toml

import (
	"reflect"
	"strings"
	"testing"
)

func parsed(t *testing.T, text string) *Document {
	t.Helper()
	d, err := Parse(strings.NewReader(text), "x.toml")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

const things = `a = 1
[[things]]
label = "first one"
size = { x = 1, y = 2 }
list = [1, 2,
  3]
[[things]]
b.c = "d"
`

// TestPlaces: a value knows its line, and its path by the labels on the way.
func TestPlaces(t *testing.T) {
	t.Parallel()
	d := parsed(t, things)
	d.Unlabelled = map[string]string{"things": "Thing"}
	if len(d.Errs) > 0 {
		t.Fatal(d.Errs)
	}
	for path, c := range map[string]struct {
		at   []Step
		line int
	}{
		"a":                          {[]Step{{Key: "a"}}, 1},
		"things.first one":           {[]Step{{Key: "things"}, {Item: 0}}, 2},
		"things.first one.size.y":    {[]Step{{Key: "things"}, {Item: 0}, {Key: "size"}, {Key: "y"}}, 4},
		"things.first one.list.3":    {[]Step{{Key: "things"}, {Item: 0}, {Key: "list"}, {Item: 2}}, 6},
		"things.Thing 2.b.c":         {[]Step{{Key: "things"}, {Item: 1}, {Key: "b"}, {Key: "c"}}, 8},
		`things.first one."new\x1b"`: {[]Step{{Key: "things"}, {Item: 0}, {Key: "new\x1b"}}, 0},
	} {
		if got := d.PathOf(c.at); got != path {
			t.Errorf("%v is called %s, want %s", c.at, got, path)
		}
		n := d.Root.Find(c.at)
		if c.line == 0 {
			if n != nil {
				t.Errorf("%s is %+v", path, n)
			}
		} else if n == nil || n.Line != c.line {
			t.Errorf("%s is %+v, want line %d", path, n, c.line)
		}
	}
}

// TestDefinedTwice: TOML's rules of what may be defined once, with both places.
func TestDefinedTwice(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"a = 1\na = 2\n":               "x.toml:2: a: found it a second time (the first is on line 1); right would be one of them",
		"[a]\n[a]\n":                   "x.toml:2: a: found it a second time (the first is on line 1); right would be one of them",
		"[[a]]\n[a]\n":                 "x.toml:2: a: found it a second time (the first is on line 1); right would be double brackets on each, as on the first: [[a]]",
		"a = { b = 1 }\na.c = 2\n":     "x.toml:2: a.c: found it a second time (the first is on line 1); right would be one of them",
		"[a.b]\n[a]\nc = 1\n":          "",
		"[[a]]\n[a.b]\n[[a]]\n[a.b]\n": "",
	} {
		if got := parsed(t, text).Errs.Error(); got != want {
			t.Errorf("%q gives\n%s\nwant\n%s", text, got, want)
		}
	}
}

// TestOverlay: the tree that it begins with stays as it is, tables on the way are
// made, and a key that is the whole of its table takes the place of the others.
func TestOverlay(t *testing.T) {
	t.Parallel()
	d, again := parsed(t, things), parsed(t, things)
	o := NewOverlay(d.Root)
	o.Alone = func(table, key string) bool { return table == "things.size" && key == "z" }
	size := []Step{{Key: "things"}, {Item: 0}, {Key: "size"}}
	at := func(keys ...string) []Step {
		steps := size[:len(size):len(size)]
		for _, k := range keys {
			steps = append(steps, Step{Key: k})
		}
		return steps
	}
	o.Set(at("x"), &Node{Kind: IntegerNode, Text: "7"}, 1)
	o.Set(at("deep", "er"), &Node{Kind: IntegerNode, Text: "8"}, 1)
	if got := o.Root.Find(size).Brief(); got != "x 7, y 2, deep er 8" {
		t.Errorf("the table is %s", got)
	}
	o.Set(at("z"), &Node{Kind: IntegerNode, Text: "9"}, 1)
	if got := o.Root.Find(size).Brief(); got != "z 9" {
		t.Errorf("the table is %s", got)
	}
	if !reflect.DeepEqual(d.Root, again.Root) {
		t.Error("the tree that it began with has changed")
	}
}

// TestSchemaThatIsWrong: what is wrong with a schema shows when it is made, and a
// key that is not in it when it is asked for.
func TestSchemaThatIsWrong(t *testing.T) {
	t.Parallel()
	right := Key{Path: "a", Kind: Measured, Quantity: Size, Min: "1 GB", Max: "2 TB"}
	wrong := right
	wrong.Min = "1 h"
	for name, c := range map[string]struct {
		run    func()
		panics bool
	}{
		"a schema":      {func() { NewSchema([]Key{right}).Key("", "a") }, false},
		"a key twice":   {func() { NewSchema([]Key{right, right}) }, true},
		"a wrong bound": {func() { NewSchema([]Key{wrong}) }, true},
		"another key":   {func() { NewSchema([]Key{right}).Key("", "b") }, true},
	} {
		func() {
			defer func() {
				if panicked := recover() != nil; panicked != c.panics {
					t.Errorf("%s: panics is %v", name, panicked)
				}
			}()
			c.run()
		}()
	}
}
