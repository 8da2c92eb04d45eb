package laws

import (
	"strings"

	"arrayodds/array/toml"
)

// form is one way of writing a law: a row of a table of laws.
type form[Law any] struct {
	example string     // as the file would have it
	keys    []toml.Key // their paths begin below the law's
	// read gives the law and how it is listed.
	read func(*toml.Table) (Law, string)
}

// keysOf returns the key of a law, followed by those of its forms.
func keysOf[Law any](k toml.Key, forms []form[Law]) []toml.Key {
	var keys []toml.Key
	for _, f := range forms {
		var own []string
		for _, key := range f.keys {
			if !strings.Contains(key.Path, ".") {
				own = append(own, key.Path)
			}
		}
		k.Forms = append(k.Forms, toml.Form{Keys: own, Example: f.example})
		keys = append(keys, f.keys...)
	}
	return toml.Inside(k, keys)
}

// read reads the table of a law in one of the forms; false where anything is
// wrong with it.
func read[Law any](l *toml.Table, k *toml.Key, forms []form[Law]) (law Law, note string, ok bool) {
	l.Quiet = true
	before := len(l.Errs)
	i := l.Form(k)
	if i >= 0 {
		law, note = forms[i].read(l)
	}
	l.Done()
	return law, note, any(law) != nil && len(l.Errs) == before
}
