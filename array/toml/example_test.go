package toml_test

import (
	"fmt"
	"strings"

	"arrayodds/array/toml"
)

// A schema says what a file may hold; a table is read by it, and what is wrong
// comes all at once, with its place.
func Example() {
	schema := toml.NewSchema([]toml.Key{
		{Path: "name", Kind: toml.Text, Default: "unnamed"},
		{Path: "length", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 h", Max: "2 d", Required: true},
		{Path: "count", Kind: toml.Whole, Min: "1", Max: "9", Default: "1"},
	})
	read := func(text string) {
		d, err := toml.Parse(strings.NewReader(text), "job.toml")
		if err != nil { // of the reader only
			fmt.Println(err)
			return
		}
		r := &toml.Reader{Document: d, Schema: schema}
		var name string
		var hours float64
		var count int
		t := r.Table(d.Root, "", "")
		t.Text("name", &name)
		t.Quantity("length", &hours)
		t.Count("count", &count)
		t.Done()
		if errs := d.Errs.Sorted(); len(errs) > 0 {
			fmt.Println(errs)
			return
		}
		fmt.Println(name, hours, count)
		for _, n := range r.SortedNotes() {
			fmt.Printf("%s: %s, default: %v\n", n.Path, n.Text, n.Default)
		}
	}
	read("name = \"night\"\nlength = \"1.5 d\"\n")
	read("lenght = \"1.5 d\"\ncount = 10\n")
	// Output:
	// night 36 1
	// name: night, default: false
	// length: 1.5 d, default: false
	// count: 1, default: true
	// job.toml:1: lenght: found an unknown key; right would be one of count, length, name (did you mean "length"?)
	// job.toml:2: count: found 10; right would be a whole number, 1 to 9
}
