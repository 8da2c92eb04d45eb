package form

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/hostile"
	"arrayodds/array/site/starter"
	"arrayodds/array/toml"

	"github.com/pelletier/go-toml/v2/unstable"
	"pgregory.net/rapid"
)

// texts are site files that are right.
func texts(t testing.TB) (all []string) {
	for _, name := range []string{"../../../testdata/saltmarsh.toml", "../testdata/everything.toml", "../testdata/ranges.toml", "../testdata/small.toml"} {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, string(b))
	}
	return append(all, starter.Text(), before, strings.ReplaceAll(before, "\n", "\r\n"), strings.TrimSuffix(before, "\n"), "\ufeff"+before)
}

// every calls on for each field of a form, those within others too.
func every(f Form, on func(Field)) {
	var fields func([]Field)
	fields = func(all []Field) {
		for _, f := range all {
			on(f)
			fields(f.Fields)
		}
	}
	var sections func([]Section)
	sections = func(all []Section) {
		for _, s := range all {
			if s.Source != nil {
				on(*s.Source)
			}
			for _, i := range s.Items {
				fields(i.Fields)
				sections(i.Sections)
			}
		}
	}
	sections(f.Sections)
}

// at returns the field at a path.
func at(f Form, path string) (found *Field) {
	every(f, func(f Field) {
		if f.Path == path && found == nil {
			found = &f
		}
	})
	return found
}

// items are the paths of the items of lists.
func items(f Form) (all []string) {
	for _, s := range f.Sections {
		if s.Repeats {
			for _, i := range s.Items {
				all = append(all, i.Path)
			}
		}
	}
	return all
}

// values is every value of a file by its path; tables are their keys.
func values(t interface{ Fatal(...any) }, text []byte) map[string]string {
	d, err := toml.Parse(bytes.NewReader(text), "")
	if err != nil || len(d.Errs) > 0 {
		t.Fatal(err, d.Errs, string(text))
	}
	all := map[string]string{}
	var walk func(n *toml.Node, at string)
	walk = func(n *toml.Node, at string) {
		switch n.Kind {
		case toml.TableNode:
			for _, key := range n.Keys {
				walk(n.Under[key], at+"."+toml.QuoteKey(key))
			}
		case toml.ListNode:
			for i, item := range n.Items {
				walk(item, fmt.Sprintf("%s.%d", at, i))
			}
		default:
			all[at] = fmt.Sprint(n.Kind, n.Text)
		}
	}
	walk(d.Root, "")
	return all
}

// comments are those of a text, in order.
func comments(text []byte) (all []string) {
	var p unstable.Parser
	p.KeepComments = true
	p.Reset(bytes.TrimPrefix(text, []byte("\ufeff")))
	var walk func(n *unstable.Node)
	walk = func(n *unstable.Node) {
		for ; n != nil; n = n.Next() {
			if n.Kind == unstable.Comment {
				all = append(all, strings.TrimSpace(string(n.Data)))
			}
			walk(n.Child())
		}
	}
	for p.NextExpression() {
		walk(p.Expression())
	}
	slices.Sort(all)
	return all
}

// form reads a file that is right.
func readForm(t interface{ Fatal(...any) }, text []byte) Form {
	f, source, errs := Read(text, "s.toml")
	if source == nil || len(errs) > 0 || len(f.Errors) > 0 {
		t.Fatal(errs, string(text))
	}
	return f
}

// typedFor draws what may be typed for a field so that the reader takes it in any file.
func typedFor(t *rapid.T, f Field) string {
	switch {
	case f.Kind == Unknown:
		t.Fatal("an unknown key in ", f.Path)
	case len(f.Forms) > 0 && rapid.Bool().Draw(t, "form"):
		return rapid.SampledFrom(f.Forms).Draw(t, "which").Text
	case len(f.Words) > 0 && rapid.Bool().Draw(t, "word"):
		return rapid.SampledFrom(f.Words).Draw(t, "which")
	case f.Given && f.Text != "":
		return f.Text
	case f.Default != "":
		return f.Default
	}
	return unquoted(keys().said[keyPathOf(f.Path)].example)
}

func keyPathOf(path string) string {
	way, _ := steps(path)
	k := keys().lookup(way)
	if k == nil {
		return ""
	}
	return k.Path
}

func unquoted(s string) string {
	if len(s) > 1 && s[0] == '"' {
		return strings.ReplaceAll(s[1:len(s)-1], `\"`, `"`)
	}
	return s
}

// TestSetting: a value that is set reads as set, every other one as before, and every
// comment is still there.
func TestSetting(t *testing.T) {
	t.Parallel()
	all := texts(t)
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(rapid.SampledFrom(all).Draw(t, "text"))
		f := readForm(t, text)
		var fields []Field
		every(f, func(f Field) {
			if f.Name != "label" && f.Path != "cameras" {
				fields = append(fields, f)
			}
		})
		one := rapid.SampledFrom(fields).Draw(t, "field")
		typed := typedFor(t, one)
		if typed == "" {
			return
		}
		after, err := Edit(text, Change{Set, one.Path, typed})
		if err != nil {
			t.Fatal(err)
		}
		got := at(readAny(after), one.Path)
		if got == nil || !got.Given || spaced(got.Text) != spaced(typed) && got.Text != unquoted(typed) {
			t.Fatalf("%s set to %q is %+v", one.Path, typed, got)
		}
		sameBut(t, text, after, one.Path)
		if headed := one.Given && strings.Contains(string(text), "[hazards.degraded_multiplier]") && strings.HasPrefix(one.Path, "hazards."); !headed && !slices.Equal(comments(text), comments(after)) {
			t.Fatalf("%s set to %q: comments\n%q\nwere\n%q", one.Path, typed, comments(after), comments(text))
		}
	})
}

func readAny(text []byte) Form { f, _, _ := Read(text, "s.toml"); return f }

func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// sameBut checks that two texts have the same values, save at a path of a form and
// beneath it, and of what it may have stood in the place of.
func sameBut(t *rapid.T, was, is []byte, path string) {
	way, err := steps(path)
	if err != nil {
		t.Fatal(err)
	}
	changed := ""
	var above []string
	for _, s := range way {
		above = append(above, changed)
		if s.Key != nil {
			changed += "." + toml.QuoteKey(*s.Key)
		} else {
			changed += fmt.Sprintf(".%d", s.Item)
		}
	}
	a, b := values(t, was), values(t, is)
	for _, m := range []map[string]string{a, b} {
		for at := range m {
			if a[at] == b[at] || at == changed || strings.HasPrefix(at, changed+".") || slices.Contains(above, at) {
				continue
			}
			t.Fatalf("%s changed %s from %q to %q:\n%s", path, at, a[at], b[at], diff(string(is), string(was)))
		}
	}
}

// TestRemoving: what is removed is no more, and every other value reads as before; the
// items behind one that is removed move up.
func TestRemoving(t *testing.T) {
	t.Parallel()
	all := texts(t)
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(rapid.SampledFrom(all).Draw(t, "text"))
		f := readForm(t, text)
		var paths []string
		every(f, func(f Field) {
			if f.Given {
				paths = append(paths, f.Path)
			}
		})
		path := rapid.SampledFrom(paths).Draw(t, "path")
		after, err := Edit(text, Change{Remove, path, ""})
		if err != nil {
			t.Fatal(err)
		}
		if got := at(readAny(after), path); got != nil && got.Given {
			t.Fatalf("%s is still %+v", path, got)
		}
		sameBut(t, text, after, path)
		one := rapid.SampledFrom(items(f)).Draw(t, "item")
		if after, err = Edit(text, Change{Remove, one, ""}); err != nil {
			t.Fatal(err)
		}
		list, number, _ := strings.Cut(one, ".")
		want, got := map[string]string{}, values(t, after)
		for at, v := range values(t, text) {
			var i, n int
			fmt.Sscan(number, &n)
			switch c, _ := fmt.Sscanf(at, "."+list+".%d", &i); {
			case c == 0 || i < n:
				want[at] = v
			case i > n:
				want[strings.Replace(at, fmt.Sprint(".", i), fmt.Sprint(".", i-1), 1)] = v
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("without %s it reads\n%v\nwant\n%v", one, got, want)
		}
	})
}

// TestLists: what is added and copied is right as it is, and what is moved comes back.
func TestLists(t *testing.T) {
	t.Parallel()
	all := texts(t)
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(rapid.SampledFrom(all).Draw(t, "text"))
		f := readForm(t, text)
		list := rapid.SampledFrom([]string{"cameras", "drives", "choices", "options"}).Draw(t, "list")
		count := func(f Form) int {
			n := 0
			for _, one := range items(f) {
				if strings.HasPrefix(one, list+".") {
					n++
				}
			}
			return n
		}
		added, err := Edit(text, Change{Add, list, ""})
		if err != nil {
			t.Fatal(err)
		}
		if n := count(readForm(t, added)); n != count(f)+1 {
			t.Fatalf("%d %s, of %d", n, list, count(f))
		}
		sameBut(t, text, added, fmt.Sprintf("%s.%d", list, count(f)))
		if count(f) == 0 {
			return
		}
		i := rapid.IntRange(0, count(f)-1).Draw(t, "item")
		path := fmt.Sprintf("%s.%d", list, i)
		copied, err := Edit(text, Change{Copy, path, ""})
		if err != nil {
			t.Fatal(err)
		}
		again := readForm(t, copied)
		if n := count(again); n != count(f)+1 {
			t.Fatalf("%d %s, of %d", n, list, count(f))
		}
		back, err := Edit(copied, Change{Remove, fmt.Sprintf("%s.%d", list, i+1), ""})
		if err != nil || fmt.Sprint(values(t, back)) != fmt.Sprint(values(t, text)) {
			t.Fatalf("%v: without the copy\n%s", err, diff(string(back), string(text)))
		}
		down, err := Edit(text, Change{Move, path, Down})
		if err != nil {
			t.Fatal(err)
		}
		up, err := Edit(down, Change{Move, fmt.Sprintf("%s.%d", list, min(i+1, count(f)-1)), Up})
		if i+1 < count(f) && (err != nil || bytes.Equal(down, text) || !bytes.Equal(up, text)) {
			t.Fatalf("%v: down and up again\n%s\nwas\n%s", err, diff(string(up), string(text)), diff(string(text), string(up)))
		}
		if !slices.Equal(comments(down), comments(text)) {
			t.Fatalf("comments\n%q\nwere\n%q", comments(down), comments(text))
		}
		readForm(t, down)
	})
}

// TestAnythingTyped: whatever is typed, at whatever path, the file is TOML if it was.
func TestAnythingTyped(t *testing.T) {
	t.Parallel()
	all := texts(t)
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(rapid.SampledFrom(all).Draw(t, "text"))
		var paths []string
		every(readForm(t, text), func(f Field) { paths = append(paths, f.Path) })
		path := rapid.OneOf(rapid.SampledFrom(paths), rapid.StringMatching(`[a-z]{1,8}(\.[0-9]|\."[^"]{0,3}"|\.[a-z]{1,8}){0,4}`)).Draw(t, "path")
		typed := rapid.OneOf(rapid.String(), rapid.StringMatching(`[{}\[\]"'#=,.\n 0-9a-z\\]{0,20}`), rapid.SampledFrom([]string{"inf", "nan", "{ a = 1 }\nb = 2", `"""`, "'''\n", "{ a = 1 } # }", "[1, # x\n2]", "[[x]]", "{ low = 1, low = 2 }", "\ufeff", "\x00\xff"})).Draw(t, "typed")
		op := rapid.SampledFrom([]Op{Set, Set, Set, Remove, Add, Copy, Move}).Draw(t, "op")
		after, err := Edit(text, Change{op, path, typed})
		if err != nil {
			return
		}
		values(t, after) // fails where it is no TOML
		readAny(after)
	})
}

// FuzzEdit: of any text and change there is another text or a reason, and never more
// mistakes of syntax than before.
func FuzzEdit(f *testing.F) {
	for _, text := range texts(f) {
		f.Add([]byte(text), "set", "drives.0.label", "x")
		f.Add([]byte(text), "copy", "choices.0", "")
		f.Add([]byte(text), "move", "choices.1", "up")
		f.Add([]byte(text), "add", "cameras", "")
		f.Add([]byte(text), "remove", "cameras.0", "")
	}
	f.Add([]byte("a.b = 1\nc = {d.e = 1, d.f = 2, }\nc = 3\n[a]\n[[x]]\nx = : 3\n[x.y]\n"), "remove", "c.d", "")
	for _, seed := range hostile.Seeds(hostile.Sites(), ".toml") {
		f.Add(seed, "set", "care.notice.likely", "{ a = 1")
	}
	f.Fuzz(func(t *testing.T, text []byte, op, path, value string) {
		Read(text, "s.toml")
		after, err := Edit(text, Change{Op(op), path, value})
		if err != nil {
			return
		}
		was, _ := toml.Parse(bytes.NewReader(text), "")
		is, _ := toml.Parse(bytes.NewReader(after), "")
		if len(is.Errs) > len(was.Errs) || is.Cut && !was.Cut {
			t.Fatalf("%q %q: %v, was %v\n%q", op, path, is.Errs, was.Errs, after)
		}
		if _, _, errs := Read(after, "s.toml"); len(errs) > 201 {
			t.Fatal(len(errs))
		}
	})
}
