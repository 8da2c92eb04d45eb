package site

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"arrayodds/array/toml"
)

// timeLaws and lifeLaws are the forms that a law may have.
var (
	timeLaws = Lookup("care.response").Forms
	lifeLaws = Lookup("drives.life").Forms
)

// sampleTexts makes site files of the table of keys alone: among them stands every
// key, and a law in each of its forms.
func sampleTexts() (all []string) {
	for i := range 3 * (len(timeLaws) + 1) { // every order with every form
		all = append(all, sampleFile(i))
	}
	return all
}

// samples are the same, read once.
var samples = sync.OnceValues(func() (all []*Document, err error) {
	for _, text := range sampleTexts() {
		d, err := Open(strings.NewReader(text), "s.toml", Beside(logos))
		if err != nil {
			return nil, err
		}
		all = append(all, d)
	}
	return all, nil
})

// instead is a value that stands in a sample in place of that of one key.
type instead struct{ path, value string }

// sampleFile is a file with every key that can stand beside the others. The number
// chooses the form of laws, and which of the keys that exclude each other come first.
func sampleFile(number int, other ...instead) string {
	var b strings.Builder
	for _, k := range beneath("", number) {
		fmt.Fprintf(&b, "%s = %s\n", toml.QuoteKey(k.Name()), sampleValue(k, number, other...))
	}
	return b.String()
}

// beneath is the keys of a table that can stand beside each other.
func beneath(table string, number int) (all []Key) {
	keys := slices.Clone(keysOf()[table])
	switch number % 3 {
	case 1:
		slices.Reverse(keys)
	case 2:
		half := len(keys) / 2
		keys = slices.Concat(keys[half:], keys[:half])
	}
	given := map[string]bool{}
	for _, k := range keys {
		others := slices.Concat(k.Excludes, k.Instead, k.Unless)
		if inForm(table, k.Name(), number) && !slices.ContainsFunc(others, func(other string) bool { return given[other] }) {
			given[k.Name()] = true
			all = append(all, k)
		}
	}
	return all
}

// keysOf is the keys of each table.
var keysOf = sync.OnceValue(func() map[string][]Key {
	all := map[string][]Key{}
	for _, k := range Keys() {
		table := strings.TrimSuffix(strings.TrimSuffix(k.Path, k.Name()), ".")
		all[table] = append(all[table], k)
	}
	return all
})

// inForm reports whether a key belongs to the form of that number of its table.
func inForm(table, name string, number int) bool {
	if ages := number%len(lifeLaws) == 2 || number%len(lifeLaws) == 3; table == "log" && name == "drive_days" && ages {
		return false // it does not tell how old drives were
	}
	of := Lookup(table)
	if of == nil || len(of.Forms) == 0 {
		return true
	}
	return slices.Contains(of.Forms[number%len(of.Forms)].Keys, name)
}

// sampleNumbers are for keys that must agree with others.
var sampleNumbers = map[string]string{"p90": `"72 h"`, "drive_days": "1e9", "failures": "1000", "since": "2026-03-31"}

var inQuotes = regexp.MustCompile(`"[^"]+"`)

// sampleValue is a value that a key accepts.
func sampleValue(k Key, number int, other ...instead) string {
	for _, o := range other {
		if o.path == k.Path {
			return o.value
		}
	}
	if s := sampleNumbers[k.Name()]; s != "" {
		return s
	}
	table := func() string {
		var all []string
		for _, in := range beneath(k.Path, number) {
			all = append(all, toml.QuoteKey(in.Name())+" = "+sampleValue(in, number, other...))
		}
		return "{ " + strings.Join(all, ", ") + " }"
	}
	switch k.Kind {
	case toml.SubTable:
		return table()
	case toml.Tables:
		return "[" + table() + "]"
	case toml.Time:
		if number%(len(timeLaws)+1) == len(timeLaws) {
			return `"48 h"`
		}
		return table()
	case toml.Word:
		return fmt.Sprintf("%q", k.Words[0])
	case toml.YesNo:
		return "true"
	case toml.Settings:
		return `{ "care.response" = "8 h" }`
	case toml.Labels:
		return `[]`
	case toml.Date:
		return "2027-03-31"
	case toml.Whole:
		return k.Max
	case toml.Number:
		return k.Min
	case toml.List:
		return fmt.Sprintf("[%q]", k.Quantity.Example)
	case toml.Measured:
		return fmt.Sprintf("%q", k.Quantity.Example)
	}
	if k.LabelOf != "" {
		k = *Lookup(k.LabelOf + ".label")
	}
	if example := inQuotes.FindString(k.Right); example != "" {
		return example
	}
	return `"a text"`
}

// stepsTo are the steps to a key, of lists to the first item.
func stepsTo(k Key) (steps []toml.Step) {
	path := ""
	for _, name := range strings.Split(k.Path, ".") {
		if path != "" && Lookup(path).Kind == toml.Tables {
			steps = append(steps, toml.Step{})
		}
		steps = append(steps, toml.Step{Key: name})
		path = strings.TrimPrefix(path+"."+name, ".")
	}
	return steps
}

// sampleWith is a sample in which a key stands, and one of the others does not.
func sampleWith(t *testing.T, k Key, without []string) *Document {
	t.Helper()
	steps := stepsTo(k)
	all, err := samples()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range all {
		n := d.Root.Find(steps)
		if table := d.Root.Find(steps[:len(steps)-1]); n != nil && !slices.ContainsFunc(without, func(key string) bool { return table.Under[key] != nil }) {
			return d
		}
	}
	t.Fatalf("%s stands in no sample", k.Path)
	return nil
}
