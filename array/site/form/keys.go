package form

import (
	"strings"
	"sync"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/toml/edit"
)

// keyTable is the reader's table of keys by the tables that they are in.
type keyTable struct {
	in    map[string][]*site.Key
	named map[string]*site.Key
	order map[string][]string
	said  map[string]said
}

// said is what a field says of its key, whatever the file.
type said struct {
	label, takes, example string
	forms                 []Way
	low, high             *float64
}

var keys = sync.OnceValue(func() *keyTable {
	t := &keyTable{map[string][]*site.Key{}, map[string]*site.Key{}, map[string][]string{}, map[string]said{}}
	for _, k := range site.Keys() {
		table := parent(k.Path)
		t.in[table] = append(t.in[table], &k)
		t.order[table] = append(t.order[table], k.Name())
		t.named[k.Path] = &k
	}
	for path, k := range t.named {
		s := said{label: labelOf(k.Name()), takes: capital(site.Takes(*k))}
		s.example = t.example(k)
		s.forms = t.forms(k)
		if low, high := k.Bounds(); k.Limits() != "" && k.Kind != toml.List {
			s.low, s.high = &low, &high
		}
		t.said[path] = s
	}
	return t
})

// parent returns the path of the table that a key stands in.
func parent(path string) string { return path[:max(strings.LastIndexByte(path, '.'), 0)] }

// section reports whether a key is a section of its own, or of an item.
func section(k *site.Key) bool {
	return k.Kind == toml.Tables || k.Kind == toml.SubTable && (!strings.Contains(k.Path, ".") || k.Inherits != "" && !strings.Contains(k.Inherits, "."))
}

// lookup returns the key at a path without items; nil where there is none. Layouts go by
// any of their names, as the reader takes them, and the ends of a range by what they are
// of.
func (t *keyTable) lookup(way []edit.Step) *site.Key {
	if k := t.named[keyPath(way)]; k != nil {
		return k
	}
	kept := make([]edit.Step, 0, len(way))
	for _, s := range way {
		if s.Key != nil && !rangeKey(*s.Key) {
			kept = append(kept, s)
		}
	}
	path := keyPath(kept)
	if k := t.named[path]; k != nil || len(kept) == 0 {
		return k
	}
	table := keyPath(kept[:len(kept)-1])
	return t.named[table+"."+layoutName(*kept[len(kept)-1].Key)]
}

func rangeKey(name string) bool { return name == "low" || name == "likely" || name == "high" }

// layoutName returns the name of a layout as the table of keys has it, of one that is
// written in another way.
func layoutName(written string) string {
	if l, err := array.ParseLayout(written); err == nil {
		return l.String()
	}
	return written
}

// needed reports whether a table has keys that it cannot be without.
func (t *keyTable) needed(table string) bool {
	for _, k := range t.in[table] {
		if k.Required {
			return true
		}
	}
	return false
}
