package site

import (
	"maps"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"arrayodds/array/toml"
)

// TestEveryKeyIsAsked: what the reader asks a file for is what the table of keys
// has, no more and no less.
func TestEveryKeyIsAsked(t *testing.T) {
	t.Parallel()
	asked, want := map[string]bool{}, map[string]bool{}
	for i, text := range sampleTexts() {
		if _, err := open(strings.NewReader(text), "s.toml", asked, Beside(logos)); err != nil {
			t.Fatalf("sample %d: %v\n%s", i, err, text)
		}
	}
	for _, k := range Keys() {
		want[k.Path] = true
	}
	for _, path := range slices.Sorted(maps.Keys(want)) {
		if !asked[path] {
			t.Errorf("%s is never asked for", path)
		}
	}
	for _, path := range slices.Sorted(maps.Keys(asked)) {
		if !want[path] {
			t.Errorf("%s is asked for and not in the table", path)
		}
	}
}

// TestKeysAreDescribed: each key says what it is in one sentence, and what it takes.
func TestKeysAreDescribed(t *testing.T) {
	t.Parallel()
	for _, k := range Keys() {
		if k.Doc == "" || !strings.HasSuffix(k.Doc, ".") || strings.Contains(k.Doc, ". ") {
			t.Errorf("%s is %q", k.Path, k.Doc)
		}
		numeric := slices.Contains([]toml.Kind{toml.Whole, toml.Number, toml.Measured, toml.Time, toml.List}, k.Kind)
		if numeric != (k.Limits() != "") {
			t.Errorf("%s lies between %q", k.Path, k.Limits())
		}
		if measured := numeric && k.Kind != toml.Whole && k.Kind != toml.Number; measured != (k.Quantity.Name != "") {
			t.Errorf("%s is %q", k.Path, k.Quantity.Name)
		}
		for _, others := range [][]string{k.Instead, k.Unless, k.Excludes} {
			for _, other := range others {
				if Lookup(strings.TrimSuffix(k.Path, k.Name())+other) == nil {
					t.Errorf("%s: there is no %s beside it", k.Path, other)
				}
			}
		}
		if k.Inherits != "" && Lookup(k.Inherits) == nil {
			t.Errorf("%s inherits from %s", k.Path, k.Inherits)
		}
	}
}

// with reads a file with another value in it, or none, and returns the errors that
// name the key or what it lies in.
func with(d *Document, k Key, v *toml.Node) (*File, Errors) {
	steps := stepsTo(k)
	o := d.Overlay()
	if v == nil {
		o.Set(steps, &toml.Node{Kind: toml.StringNode}, 1) // so that the table is one of its own
		table := o.Root.Find(steps[:len(steps)-1])
		table.Keys = slices.DeleteFunc(table.Keys, func(key string) bool { return key == k.Name() })
		delete(table.Under, k.Name())
	} else {
		if k.Kind == toml.List {
			steps = append(steps, toml.Step{})
		}
		o.Set(steps, v, 1)
	}
	f, errs := d.ReadTree(o.Root, Reading{Lenient: true})
	changed := *d.Document
	changed.Root = o.Root
	steps = stepsTo(k)
	return f, slices.DeleteFunc(errs, func(e toml.Error) bool {
		unnamed := k.Name() == "label" && strings.HasSuffix(e.Key, ".label")
		return e.Key != changed.PathOf(steps) && e.Key != changed.PathOf(steps[:len(steps)-1]) && !unnamed
	})
}

// valueOf is a value of a key as the parser would give it.
func valueOf(k Key, written string) *toml.Node {
	n := &toml.Node{Kind: toml.StringNode, Line: 1, Text: written}
	switch k.Kind {
	case toml.Whole:
		n.Kind = toml.IntegerNode
		if _, err := strconv.ParseInt(written, 10, 64); err != nil {
			n.Kind = toml.FloatNode
		}
	case toml.Number:
		n.Kind = toml.FloatNode
	case toml.YesNo:
		n.Kind = toml.BoolNode
	}
	return n
}

var written = regexp.MustCompile(`^(1 in )?([-0-9.e]+)(.*)$`)

// beyond is a bound moved a little, up or down.
func beyond(k Key, bound string, way float64) string {
	m := written.FindStringSubmatch(bound)
	v, _ := strconv.ParseFloat(m[2], 64)
	switch {
	case k.Kind == toml.Whole:
		v += way
	case v == 0:
		v = way * 1e-6
	default:
		v += way * 1e-6 * math.Abs(v)
	}
	return m[1] + strconv.FormatFloat(v, 'f', -1, 64) + m[3]
}

// TestBounds: what the table says are the least and the greatest value is accepted,
// and what lies just beyond them is refused with those bounds.
func TestBounds(t *testing.T) {
	t.Parallel()
	for _, k := range Keys() {
		if k.Limits() == "" {
			continue
		}
		d := sampleWith(t, k, k.Unless)
		said := k.Limits()
		if k.Kind == toml.Whole || k.Kind == toml.Number {
			said = k.Expected()
		}
		bounded := func(written string) bool {
			_, errs := with(d, k, valueOf(k, written))
			return slices.ContainsFunc(errs, func(e toml.Error) bool { return e.Right == said })
		}
		for _, bound := range []string{k.Min, k.Max} {
			if bounded(bound) {
				t.Errorf("%s: %s is refused", k.Path, bound)
			}
		}
		if over := beyond(k, k.Max, 1); !bounded(over) {
			t.Errorf("%s: %s is accepted", k.Path, over)
		}
		under := beyond(k, k.Min, -1)
		if _, errs := with(d, k, valueOf(k, under)); len(errs) == 0 { // below 0 units say so themselves
			t.Errorf("%s: %s is accepted", k.Path, under)
		} else if !strings.HasPrefix(under, "-") && !bounded(under) {
			t.Errorf("%s: %s is refused as %v", k.Path, under, errs)
		}
	}
}

// TestDefaultsOfTheTable: to leave a key out is to give its default.
func TestDefaultsOfTheTable(t *testing.T) {
	t.Parallel()
	some := 0
	for _, k := range Keys() {
		if k.Default == "" || k.Inherits != "" {
			continue
		}
		some++
		d := sampleWith(t, k, nil)
		given, errs := with(d, k, valueOf(k, k.Default))
		left, more := with(d, k, nil)
		if given == nil || left == nil {
			t.Errorf("%s: %v %v", k.Path, errs, more)
			continue
		}
		given.Assumptions, left.Assumptions = nil, nil
		if !reflect.DeepEqual(given, left) {
			t.Errorf("%s is not %s where it is left out:\n%+v\n%+v", k.Path, k.Default, given, left)
		}
	}
	if some < 20 {
		t.Errorf("only %d defaults", some)
	}
}

// TestRequiredKeys: a file without a required key is refused at its place, and one
// without any other is accepted.
func TestRequiredKeys(t *testing.T) {
	t.Parallel()
	for _, k := range Keys() {
		d := sampleWith(t, k, append(slices.Clone(k.Instead), k.Unless...))
		f, errs := with(d, k, nil)
		inForm := false // without one of its keys there may be no form
		if at := strings.LastIndex(k.Path, "."); at > 0 {
			inForm = len(Lookup(k.Path[:at]).Forms) > 0
		}
		if required := len(errs) > 0; required != k.Required && !inForm {
			t.Errorf("%s: without it %v", k.Path, errs)
		} else if !required && f == nil {
			t.Errorf("%s: refused elsewhere without it", k.Path)
		}
	}
}

// TestAlternatives: words and "none" are taken where the table says so, and keys
// that exclude each other are refused beside each other.
func TestAlternatives(t *testing.T) {
	t.Parallel()
	text := func(s string) *toml.Node { return &toml.Node{Kind: toml.StringNode, Line: 1, Text: s} }
	for _, k := range Keys() {
		if k.Kind == toml.Text {
			continue
		}
		d := sampleWith(t, k, k.Unless)
		if k.Kind != toml.Tables && k.Kind != toml.List {
			if _, errs := with(d, k, text("none")); (len(errs) == 0) != k.None {
				t.Errorf("%s: \"none\" gives %v", k.Path, errs)
			}
		}
		for _, word := range k.Words {
			if _, errs := with(d, k, text(word)); len(errs) > 0 {
				t.Errorf("%s: %q gives %v", k.Path, word, errs)
			}
		}
		for _, other := range k.Excludes {
			beside := Lookup(strings.TrimSuffix(k.Path, k.Name()) + other)
			if f, _ := with(d, *beside, mustValue(t, sampleValue(*beside, 0))); f != nil {
				t.Errorf("%s is accepted beside %s", other, k.Path)
			}
		}
		for _, f := range k.Forms {
			if _, errs := with(d, k, mustValue(t, f.Example)); len(errs) > 0 {
				t.Errorf("%s: %s gives %v", k.Path, f.Example, errs)
			}
		}
	}
}

func mustValue(t *testing.T, written string) *toml.Node {
	t.Helper()
	d, err := toml.Parse(strings.NewReader("x = "+written), "")
	if err != nil || len(d.Errs) > 0 {
		t.Fatal(err, d.Errs)
	}
	return d.Root.Under["x"]
}

// TestUnits: the units that the table lists are read.
func TestUnits(t *testing.T) {
	t.Parallel()
	for _, k := range Keys() {
		for _, u := range k.Quantity.Units {
			written := "1 " + u
			if u == "bits" {
				written = "1 in 1 bits"
			}
			if v, err := k.Quantity.Parse(written); err != nil || v <= 0 {
				t.Errorf("%s: %q is read as %v, %v", k.Path, written, v, err)
			}
		}
	}
}
