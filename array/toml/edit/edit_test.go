package edit

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"arrayodds/array/hostile"
	"arrayodds/array/toml"

	"pgregory.net/rapid"
)

// style puts keys in the order a, b, c and c under a header.
var style = Style{
	Order:  func(string) []string { return []string{"a", "b", "c", "d"} },
	Headed: func(table string) bool { return table == "c" || table == "d.c" },
}

func way(path string) (all []Step) {
	for _, part := range strings.Split(path, ".") {
		if n := strings.IndexAny(part, "0123456789"); n == 0 {
			all = append(all, Item(int(part[0]-'0')))
		} else {
			all = append(all, Key(part))
		}
	}
	return all
}

// TestSet: by hand, with the text before and after.
func TestSet(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ text, path, value, want string }{
		{"", "a", "1", "a = 1\n"},
		{"a = 2", "a", "1", "a = 1"},
		{"a = 2", "b", "1", "a = 2\nb = 1"},
		{"b = 2 # x\n", "a", "1", "a = 1\nb = 2 # x\n"},
		{"# top\n\n# of b\nb = 2\n", "a", "1", "# top\n\na = 1\n# of b\nb = 2\n"},
		{"# top\nb = 2\n", "a", "1", "# top\na = 1\nb = 2\n"},
		{"# top\n\n# of t\n[t]\n", "a", "1", "# top\n\na = 1\n\n# of t\n[t]\n"},
		{"\ufeffb = 2\n", "a", "1", "\ufeffa = 1\nb = 2\n"},
		{"  a = 2\r\n", "b", "1", "  a = 2\r\n  b = 1\r\n"},
		{"a = \"\"\"x\n# y\n\"\"\" # z\n", "a", "1", "a = 1 # z\n"},
		{"a = [1, # x\n 2]\n", "a.1", "3", "a = [1, # x\n 3]\n"},
		{"a = { }\n", "a.b", "1", "a = { b = 1 }\n"},
		{"a = { b.c = 1 }\n", "a.b.d", "2", "a = { b.c = 1, b.d = 2 }\n"},
		{"a = { b = 1, } # z\n", "a.c", "2", "a = { b = 1, c = 2, } # z\n"},
		{"a = { \"b\" = { c = 1 } }\n", "a.b.c", "2", "a = { \"b\" = { c = 2 } }\n"},
		{"a = 1\n", "a.b.c", "2", "a = { b = { c = 2 } }\n"},
		{"b.x = 1\n[t]\n", "b.y", "2", "b.x = 1\nb.y = 2\n[t]\n"},
		{"[t]\nb.x = 1\nz = 1\n", "t.b.y", "2", "[t]\nb.x = 1\nb.y = 2\nz = 1\n"},
		{"[t.u]\nx = 1\n", "t.y", "2", "[t]\ny = 2\n\n[t.u]\nx = 1\n"},
		{"a = 1\n", "c.x", "2", "a = 1\n\n[c]\nx = 2\n"},
		{"[[d]]\na = 1\n# off\n\n[t]\n", "d.0.c.x", "2", "[[d]]\na = 1\n# off\n[d.c]\nx = 2\n\n[t]\n"},
		{"d = [{ a = 1 }]\n", "d.0.c.x", "2", "d = [{ a = 1, c = { x = 2 } }]\n"},
		{"[t]\n[t.a]\nx = 1\n[u]\n", "t.a", "2", "[t]\na = 2\n[u]\n"},
		{"a : 1 # z\nb = 2\n", "a", "3", "a = 3 # z\nb = 2\n"},
		{"a = 1 2\n", "b", "3", "a = 1 2\nb = 3\n"},
		{"['x y']\n", "x y.b", "1", "['x y']\nb = 1\n"},
		{"[a]\nx = 1\n[a]\nx = 2\n", "a.x", "3", "[a]\nx = 3\n[a]\nx = 2\n"},
	} {
		got, err := Parse([]byte(c.text)).Set(way(c.path), c.value, style)
		if err != nil || string(got) != c.want {
			t.Errorf("%s set to %s in\n%s\nis, %v,\n%s\nwant\n%s", c.path, c.value, c.text, err, got, c.want)
		}
	}
	for text, path := range map[string]string{"a = [1]\n": "a.3", "[[d]]\n": "d.0", "[a\n": "b", "[[a]]\n": "a.b", "\n": ""} {
		steps := way(path)
		if path == "" {
			steps = nil
		}
		if got, err := Parse([]byte(text)).Set(steps, "1", style); err == nil {
			t.Errorf("%s is set in %q: %q", path, text, got)
		}
	}
}

// TestRemove: by hand.
func TestRemove(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ text, path, want string }{
		{"a = 1 # x\nb = 2", "a", "b = 2"},
		{"a = 1\nb = 2", "b", "a = 1"},
		{"a = [1, 2, 3]\n", "a.0", "a = [2, 3]\n"},
		{"a = [1, 2, 3]\n", "a.2", "a = [1, 2]\n"},
		{"a = [1 # x\n, 2]\n", "a.0", "a = [2]\n"},
		{"a = [1,\n # x\n 2]\n", "a.1", "a = [1,\n # x\n ]\n"},
		{"a = { x = 1, y = 2 } # z\n", "a.y", "a = { x = 1 } # z\n"},
		{"a = { x = 1 }\nb = 1\n", "a.x", "b = 1\n"},
		{"a = { b = { c = 1 } }\nb = 1\n", "a.b.c", "b = 1\n"},
		{"a = { b.c = 1, x = 2, b.d = 3 }\n", "a.b", "a = { x = 2 }\n"},
		{"b.x = 1\nc = 2 # z\nb.y = 3\n", "b", "c = 2 # z\n"},
		{"[a]\nx = 1\n\n[b]\ny = 1\n", "a.x", "[b]\ny = 1\n"},
		{"[a] # z\nx = 1\n\n[b]\ny = 1\n", "a.x", "[a] # z\n\n[b]\ny = 1\n"},
		{"[a]\n# z\nx = 1\n", "a.x", "[a]\n# z\n"},
		{"[b]\n\n# of a\n[a]\nx = 1\n# tail\n\n# of c\n[c]\n", "a", "[b]\n\n# of c\n[c]\n"},
		{"[[d]]\nx = 1\n\n[[d]]\nx = 2\n[d.c]\ny = 1\n\n[e]\n", "d.1", "[[d]]\nx = 1\n\n[e]\n"},
		{"[[d]]\nx = 1\n[e]\ny = 1\n[d.c]\nz = 1\n", "d.0", "[e]\ny = 1\n"},
		{"d = [{ x = 1 }, { x = 2 }]\n", "d.0", "d = [{ x = 2 }]\n"},
		{"a = 1\n", "b", "a = 1\n"},
	} {
		got, err := Parse([]byte(c.text)).Remove(way(c.path))
		if err != nil || string(got) != c.want {
			t.Errorf("%s out of\n%s\nis, %v,\n%s\nwant\n%s", c.path, c.text, err, got, c.want)
		}
	}
}

// TestItems: added, copied and moved, by hand.
func TestItems(t *testing.T) {
	t.Parallel()
	entries := []Entry{{"a", "1"}, {"x y", `"z"`}}
	for _, c := range []struct {
		text string
		do   func(*Text) ([]byte, error)
		want string
	}{
		{"", func(t *Text) ([]byte, error) { return t.Add("d", entries, style) }, "[[d]]\na = 1\n\"x y\" = \"z\"\n"},
		{"d = []\n", func(t *Text) ([]byte, error) { return t.Add("d", entries, style) }, "d = [{ a = 1, \"x y\" = \"z\" }]\n"},
		{"d = [{ a = 1 }]\n", func(t *Text) ([]byte, error) { return t.Add("d", entries[:1], style) }, "d = [{ a = 1 }, { a = 1 }]\n"},
		{"[[d]]\na = 1\n[e]\n", func(t *Text) ([]byte, error) { return t.Add("d", entries[:1], style) }, "[[d]]\na = 1\n\n[[d]]\na = 1\n\n[e]\n"},
		{"d = [{ a = 1 }]\n", func(t *Text) ([]byte, error) { return t.Copy("d", 0, "a", "2") }, "d = [{ a = 1 }, { a = 2 }]\n"},
		{"# x\n\n# y\n[[d]]\na = 1 # z", func(t *Text) ([]byte, error) { return t.Copy("d", 0, "a", "2") }, "# x\n\n# y\n[[d]]\na = 1 # z\n\n# y\n[[d]]\na = 2 # z"},
		{"d = [{ a = 1 }, { a = 2 }]\n", func(t *Text) ([]byte, error) { return t.Move("d", 1, true) }, "d = [{ a = 2 }, { a = 1 }]\n"},
		{"# y\n\n# 1\n[[d]]\na = 1\n\n# 2\n[[d]]\na = 2", func(t *Text) ([]byte, error) { return t.Move("d", 0, false) }, "# y\n\n# 2\n[[d]]\na = 2\n\n# 1\n[[d]]\na = 1"},
		{"[[d]]\na = 1\n[e]\n[d.c]\n[[d]]\na = 2\n", func(t *Text) ([]byte, error) { return t.Move("d", 0, false) }, "[[d]]\na = 2\n[e]\n[[d]]\na = 1\n[d.c]\n"},
		{"[[d]]\n", func(t *Text) ([]byte, error) { return t.AddTable(way("d.0.c"), style) }, "[[d]]\n[d.c]\n"},
	} {
		got, err := c.do(Parse([]byte(c.text)))
		if err != nil || string(got) != c.want {
			t.Errorf("of\n%s\nit is, %v,\n%s\nwant\n%s", c.text, err, got, c.want)
		}
	}
}

// outline is a tree in words, with the lines of its values.
func outline(t *Text, n *Node) string {
	switch n.Kind {
	case Table:
		var b strings.Builder
		for _, key := range n.Keys {
			fmt.Fprintf(&b, "%q: %s; ", key, outline(t, n.Under[key]))
		}
		return "{" + b.String() + "}"
	case List:
		var b strings.Builder
		for _, item := range n.Items {
			b.WriteString(outline(t, item) + "; ")
		}
		return "[" + b.String() + "]"
	}
	return fmt.Sprintf("%d %q", n.Line, n.Text)
}

// readerOutline is the same of what the reader makes of a text.
func readerOutline(n *toml.Node) string {
	switch n.Kind {
	case toml.TableNode:
		var b strings.Builder
		for _, key := range n.Keys {
			fmt.Fprintf(&b, "%q: %s; ", key, readerOutline(n.Under[key]))
		}
		return "{" + b.String() + "}"
	case toml.ListNode:
		var b strings.Builder
		for _, item := range n.Items {
			b.WriteString(readerOutline(item) + "; ")
		}
		return "[" + b.String() + "]"
	}
	return fmt.Sprintf("%d %q", n.Line, n.Text)
}

var pieces = []string{"a", "b", "c", ".", " = ", "\n", "[", "]", "[[d]]\n", "{ ", " }", ", ", "1", "\"x\"", "'#'", "# y\n", "\"\"\"\n]\"\"\"", "true", "2030-01-01 10:00:00", "\r\n", "a = 1\n", "[a]\n", "[d.c]\n", "b.c = { x = 1, y.z = [1, 2] }\n", "c = [{ x = 1 },\n # y\n { x = 2 }]\n"}

// TestPlaces: of texts made of pieces of TOML, what is found is what the reader finds,
// and each value's bytes are its own.
func TestPlaces(t *testing.T) {
	t.Parallel()
	right := 0
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 30).Draw(t, "pieces"), "")
		d, _ := toml.Parse(strings.NewReader(text), "")
		p := Parse([]byte(text))
		if len(d.Errs) > 0 {
			return
		}
		right++
		if got, want := outline(p, p.Root), readerOutline(d.Root); got != want || p.Cut > 0 {
			t.Fatalf("%q\n%s\nwant\n%s", text, got, want)
		}
		if !bytes.Equal(p.Bytes(), []byte(text)) || !bytes.Equal(p.Apply(), []byte(text)) {
			t.Fatalf("%q is %q", text, p.Bytes())
		}
		var walk func(n *Node)
		walk = func(n *Node) {
			if n.To > 0 {
				own := Parse([]byte("x = " + p.Source(n)))
				v := own.Root.Under["x"]
				if own.Cut > 0 || v == nil || v.Kind != n.Kind || v.Text != n.Text {
					t.Fatalf("%q: %q is no value", text, p.Source(n))
				}
			}
			for _, u := range n.Under {
				walk(u)
			}
			for _, i := range n.Items {
				walk(i)
			}
		}
		walk(p.Root)
	})
	if right == 0 {
		t.Error("none of the texts is TOML")
	}
}

// TestHostile: whatever is done to whatever text ends, and is no worse TOML than before.
func TestHostile(t *testing.T) {
	t.Parallel()
	var texts []string
	for _, seed := range hostile.Seeds(hostile.Sites(), ".toml") {
		texts = append(texts, string(seed))
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.SampledFrom(texts[:min(len(texts), 12)]), rapid.Custom(func(t *rapid.T) string {
			return strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 30).Draw(t, "pieces"), "")
		})).Draw(t, "text")
		p := Parse([]byte(text))
		path := way(strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c", "d", "x", "y", "0", "1"}), 1, 4).Draw(t, "path"), "."))
		var after []byte
		var err error
		switch rapid.IntRange(0, 5).Draw(t, "op") {
		case 0:
			after, err = p.Set(path, "1", style)
		case 1:
			after, err = p.Remove(path)
		case 2:
			after, err = p.Add("d", []Entry{{"a", "1"}}, style)
		case 3:
			after, err = p.Copy("d", 0, "a", "2")
		case 4:
			after, err = p.Move("d", rapid.IntRange(0, 2).Draw(t, "item"), rapid.Bool().Draw(t, "up"))
		case 5:
			after, err = p.AddTable(path, style)
		}
		if err != nil {
			return
		}
		was, _ := toml.Parse(strings.NewReader(text), "")
		is, _ := toml.Parse(bytes.NewReader(after), "")
		if len(was.Errs) == 0 && len(is.Errs) > 0 {
			t.Fatalf("%q\nbecomes %q:\n%v", text, after, is.Errs)
		}
	})
}
