package form

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/toml"
	"arrayodds/array/toml/edit"
)

// Read returns a site file as a form, and the file as [axis.Open] reads it; nil where it
// is wrong, with all errors, which stand in the form too: at their fields or, where they
// have none, apart. name is what errors call the file.
func Read(text []byte, name string, opts ...site.Option) (Form, *axis.Source, site.Errors) {
	source, err := axis.Open(bytes.NewReader(text), name, opts...)
	var errs site.Errors
	if err != nil && !errors.As(err, &errs) {
		errs = site.Errors{{File: name, Line: 1, Found: "a file that cannot be read", Right: err.Error()}}
	}
	r := &reader{text: edit.Parse(text), keyTable: keys()}
	if source != nil {
		r.derived = map[string]string{}
		for _, a := range source.File().Assumptions {
			if a.Default {
				r.derived[a.Path] = a.Text
			}
		}
	}
	f := Form{Cut: r.text.Cut, Sections: r.sections()}
	if len(errs) > 0 {
		f.place(errs)
	}
	return f, source, errs
}

// reader makes a form of a text.
type reader struct {
	*keyTable
	text    *edit.Text
	drives  []string          // what a drive may be called in a choice
	derived map[string]string // what the reader lists as a default, by its own path
}

// sections returns the form's.
func (r *reader) sections() []Section {
	r.drives = labelsOf(r.text.Root.Under["drives"])
	all := []Section{{Title: "Site", Doc: "What the site is called, how long it is to serve, and what things cost there.", Required: true,
		Items: []Item{{Line: 1, Fields: r.fields("", r.text.Root, "", "")}}}}
	for _, k := range r.in[""] {
		if !section(k) {
			continue
		}
		n := r.text.Root.Under[k.Name()]
		if k.Kind == toml.Tables {
			all = append(all, r.list(k, n))
		} else {
			all = append(all, r.single(k, n, k.Name(), k.Name()))
		}
	}
	if unknown := r.strayTables(); len(unknown) > 0 {
		all[0].Items[0].Fields = append(all[0].Items[0].Fields, unknown...)
	}
	return all
}

// strayTables returns the tables at the top that are not known.
func (r *reader) strayTables() (all []Field) {
	for _, name := range r.text.Root.Keys {
		n := r.text.Root.Under[name]
		if r.named[name] == nil && (n.Kind == edit.Table || n.Kind == edit.List) && n.To == 0 {
			all = append(all, r.unknown(name, n, pathOf("", edit.Key(name))))
		}
	}
	return all
}

// head returns a section without its items.
func (r *reader) head(k *site.Key, n *edit.Node, path string) Section {
	return Section{Path: path, Title: labelOf(k.Name()), Doc: k.Doc, One: k.Item, Repeats: k.Kind == toml.Tables, Most: k.Most,
		Absent: n == nil, Required: k.Required, Else: k.Absent, Items: []Item{}}
}

// single returns the section of a table. under is what the reader calls it.
func (r *reader) single(k *site.Key, n *edit.Node, path, under string) Section {
	s := r.head(k, n, path)
	if n != nil && n.Kind == edit.List && len(n.Items) > 0 { // of which the reader takes the first
		n, path = n.Items[0], pathOf(path, edit.Item(0))
	}
	if n != nil && n.Kind != edit.Table {
		n = nil
	}
	if n == nil && k.Inherits != "" {
		return s
	}
	item := Item{Path: path, Fields: r.fields(k.Path, n, path, under)}
	if n != nil {
		item.Line = n.Line
	}
	s.Items = append(s.Items, item)
	return s
}

// list returns the section of a list of tables.
func (r *reader) list(k *site.Key, n *edit.Node) Section {
	s := r.head(k, n, k.Name())
	var items []*edit.Node
	switch {
	case n == nil:
	case n.Kind == edit.List:
		items = n.Items[:min(len(n.Items), k.Most)] // beyond which the reader takes none
	case n.Kind == edit.Table:
		s.Items = append(s.Items, r.item(k, n, k.Name(), 0))
	}
	for i, item := range items {
		s.Items = append(s.Items, r.item(k, item, pathOf(k.Name(), edit.Item(i)), i))
	}
	if k.Other != "" {
		s.Source = &Field{Path: k.Name(), Name: k.Name(), Label: "Schedule", Kind: Text, Takes: capital(k.Other)}
		switch {
		case n != nil && n.Kind == edit.String, n != nil && n.Kind == edit.Broken:
			s.Source.Text, s.Source.Given, s.Source.Line = n.Text, true, n.Line
		case len(s.Items) > 0:
			s.Source.Excluded = "the file has " + k.Name() + " of its own"
		}
	}
	return s
}

// item returns one table of a list.
func (r *reader) item(k *site.Key, n *edit.Node, path string, i int) Item {
	label := labelIn(n)
	under := readerPath(k.Name(), label, i)
	item := Item{Path: path, Label: label, Line: n.Line, Fields: []Field{}}
	if label == "" {
		item.Label = unlabelled(k, r.named[k.Path+".label"], i)
	}
	if r.named[k.Path+".label"] == nil { // things of this kind have none
		under = toml.Join(k.Name(), item.Label)
	}
	if n.Kind != edit.Table {
		return item
	}
	item.Fields = r.fields(k.Path, n, path, under)
	for j := range item.Fields {
		if f := &item.Fields[j]; f.Name == "label" && !f.Required {
			f.Default, f.Absent = item.Label, ""
			if f.Given {
				f.Default = unlabelled(k, r.named[k.Path+".label"], i)
			}
		}
	}
	for _, own := range r.in[k.Path] {
		if section(own) {
			item.Sections = append(item.Sections, r.single(own, n.Under[own.Name()], pathOf(path, edit.Key(own.Name())), toml.Join(under, own.Name())))
		}
	}
	return item
}

// unlabelled returns what an item without a label is called.
func unlabelled(k, label *site.Key, i int) string {
	if label != nil && !label.Required {
		return fmt.Sprintf("%s %d", capital(k.Name()), i+1)
	}
	return fmt.Sprintf("%s %d", capital(k.Item), i+1)
}

// readerPath returns what the reader calls an item of a list.
func readerPath(list, label string, i int) string {
	if label == "" {
		return fmt.Sprintf("%s %d", list, i+1)
	}
	return toml.Join(list, label)
}

// labelIn returns the label of an item; "" where it has none.
func labelIn(n *edit.Node) string {
	if n == nil || n.Kind != edit.Table {
		return ""
	}
	if l := n.Under["label"]; l != nil && l.Kind == edit.String {
		return strings.TrimSpace(l.Text)
	}
	return ""
}

// labelsOf returns the labels of a list, each once.
func labelsOf(list *edit.Node) (all []string) {
	if list == nil {
		return nil
	}
	seen := map[string]bool{"": true}
	for _, item := range list.Items {
		if l := labelIn(item); !seen[l] {
			seen[l] = true
			all = append(all, l)
		}
	}
	return slices.Clip(all)
}
