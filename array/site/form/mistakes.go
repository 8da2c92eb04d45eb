package form

import (
	"math"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// place puts errors at the fields that they are at, the others apart.
func (f *Form) place(errs site.Errors) {
	p := places{}
	for i := range f.Sections {
		p.section(&f.Sections[i], []string{f.Sections[i].Path})
	}
	for _, e := range errs {
		at, rest := p.find(e)
		said := e.Said()
		if at != nil && rest != "" {
			said = rest + ": " + said
		} else if at == nil && e.Key != "" {
			said = e.Key + ": " + said
		}
		if e.Place != "" {
			said = e.Place + ": " + said
		}
		switch {
		case at == nil:
			f.Errors = append(f.Errors, Mistake{Line: e.Line, Text: said})
		case *at == "":
			*at = said
		default:
			*at += "\n" + said
		}
	}
}

// slot is where an error of some lines can be put.
type slot struct {
	from, to int // to: of the first line that is another's
	error    *string
}

// places is the slots by what the reader calls them.
type places map[string][]slot

// section takes in a section whose table the reader calls by some names.
func (p places) section(s *Section, names []string) {
	first, all := 0, math.MaxInt
	if s.Source != nil && s.Source.Given {
		p[s.Path] = append(p[s.Path], slot{first, all, &s.Source.Error})
	} else if s.Path != "" {
		for _, name := range names {
			p[name] = append(p[name], slot{first, all, &s.Error})
		}
	}
	for i := range s.Items {
		item := &s.Items[i]
		from, to := first, all
		own := names
		if s.Repeats {
			from = item.Line
			if i+1 < len(s.Items) {
				to = max(s.Items[i+1].Line, from+1)
			}
			// As the reader calls it; then as it does while it knows no label of it.
			own = []string{readerPath(s.Path, item.Label, i), readerPath(s.Path, "", i)}
			for _, name := range own {
				p[name] = append(p[name], slot{from, to, &item.Error})
			}
			own = append(own, s.Path)
		}
		p.fields(item.Fields, item.Path, own, from, to)
		for j := range item.Sections {
			var deeper []string
			sub := &item.Sections[j]
			way, _ := steps(sub.Path)
			for _, name := range own {
				deeper = append(deeper, toml.Join(name, *way[len(way)-1].Key))
			}
			p.inner(sub, deeper, from, to)
		}
	}
}

// inner takes in a section of an item.
func (p places) inner(s *Section, names []string, from, to int) {
	for _, name := range names {
		p[name] = append(p[name], slot{from, to, &s.Error})
	}
	for i := range s.Items {
		p.fields(s.Items[i].Fields, s.Items[i].Path, names, from, to)
	}
}

// fields takes in fields that stand in a table by their paths.
func (p places) fields(all []Field, table string, names []string, from, to int) {
	depth, _ := steps(table)
	for i := range all {
		f := &all[i]
		way, _ := steps(f.Path)
		for _, name := range names {
			for _, s := range way[len(depth):] {
				if s.Key != nil && !(rangeKey(*s.Key) && f.Name != *s.Key) {
					name = toml.Join(name, *s.Key)
				}
			}
			p[name] = append(p[name], slot{from, to, &f.Error})
		}
		p.fields(f.Fields, table, names, from, to)
	}
}

// find returns where an error is put, and what of its key that does not say; nil where
// it has no place.
func (p places) find(e site.Error) (at *string, rest string) {
	for key := e.Key; key != ""; {
		for _, s := range p[key] {
			if s.from <= e.Line && e.Line < s.to {
				return s.error, strings.TrimPrefix(rest, ".")
			}
		}
		i := strings.LastIndexByte(key, '.')
		if i < 0 {
			return nil, ""
		}
		key, rest = key[:i], key[i:]+rest
	}
	return nil, ""
}
