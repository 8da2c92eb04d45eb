package toml

import "fmt"

// Schema is the keys of a sort of file. It does not change.
type Schema struct {
	keys   []Key
	paths  map[string]*Key
	tables map[string]map[string]*Key // path of a table → its keys
}

// Inside returns a key and, below it, the keys of its table, whose paths begin there.
func Inside(of Key, keys []Key) []Key {
	all := []Key{of}
	for _, k := range keys {
		k.Path = of.Path + "." + k.Path
		all = append(all, k)
	}
	return all
}

// NewSchema returns the schema of some keys, in their order. It panics where a
// bound cannot be read or a key stands there twice: they are the program's own.
func NewSchema(keys []Key) *Schema {
	s := &Schema{keys: keys, paths: map[string]*Key{}, tables: map[string]map[string]*Key{}}
	for i := range s.keys {
		k := &s.keys[i]
		k.compile()
		table, name := "", k.Name()
		if n := len(k.Path) - len(name); n > 0 {
			table = k.Path[:n-1]
		}
		if s.tables[table] == nil {
			s.tables[table] = map[string]*Key{}
		}
		if s.tables[table][name] != nil {
			panic("the key " + k.Path + " twice")
		}
		s.tables[table][name], s.paths[k.Path] = k, k
	}
	return s
}

// Keys returns the keys in their order. They are not to be changed.
func (s *Schema) Keys() []Key { return s.keys }

// Lookup returns the key at a path; nil where there is none.
func (s *Schema) Lookup(path string) *Key { return s.paths[path] }

// Key returns the key of a table; table is the table's path, "" for the top. It
// panics where there is none: what is asked of a file stands in its schema.
func (s *Schema) Key(table, name string) *Key {
	k := s.tables[table][name]
	if k == nil {
		panic(fmt.Sprintf("no key %s in the schema", Join(table, name)))
	}
	return k
}
