package site

import (
	"slices"
	"strings"
	"sync"

	"arrayodds/array/evidence"
	"arrayodds/array/toml"
)

// Key is one key of the site file: what it takes, and in one sentence what it is.
type Key = toml.Key

// Keys returns every key of the site file, each table before what is in it.
func Keys() []Key { return slices.Clone(schema().Keys()) }

// Lookup returns the key at a path without labels and numbers, such as
// "drives.life.afr"; nil where there is none.
func Lookup(path string) *Key { return schema().Lookup(path) }

// schema returns the table of keys. Each part of it stands in the file that reads it.
// It is made when it is first asked for, which many commands never do.
var schema = sync.OnceValue(func() *toml.Schema {
	return toml.NewSchema(slices.Concat(
		siteKeys,
		table(camerasKey, cameraKeys),
		table(drivesKey, driveKeys),
		table(evidence.Key, evidence.Keys),
		table(choicesKey, choiceKeys),
		table(optionsKey, optionKeys),
		table(careKey, careKeys),
		table(hazardsKey, hazardKeys),
		table(recorderKey, recorderKeys),
		table(documentKey, documentKeys),
		table(buildKey, buildKeys),
		table(sizingKey, sizingKeys()),
		table(goalKey, goalKeys),
		table(runKey, runKeys),
	))
})

// table returns a key and, under it, the keys of its table.
func table(of Key, keys []Key) []Key {
	all := []Key{of}
	for _, k := range keys {
		k.Path = of.Path + "." + k.Path
		all = append(all, k)
	}
	return all
}

// overriding returns a table of a choice that overrides the site's of the same name.
func overriding(of Key, keys []Key) []Key {
	all := table(of, keys)
	for i := range all {
		all[i].Inherits, all[i].Absent = all[i].Path, ""
	}
	return all
}

// form is one way of writing a law: a row of a table of laws.
type form[Law any] struct {
	example string // as the file would have it
	keys    []Key  // their paths begin below the law's
	// read gives the law and how it is listed.
	read func(*toml.Table) (Law, string)
}

// lawKeys returns the key of a law, followed by those of its forms.
func lawKeys[Law any](k Key, forms []form[Law]) []Key {
	var keys []Key
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
	return table(k, keys)
}

// readLaw reads the table of a law in one of the forms; false where anything is
// wrong with it.
func readLaw[Law any](l *toml.Table, k *Key, forms []form[Law]) (law Law, note string, ok bool) {
	l.Quiet = true
	before := len(l.Errs)
	i := l.Form(k)
	if i >= 0 {
		law, note = forms[i].read(l)
	}
	l.Done()
	return law, note, any(law) != nil && len(l.Errs) == before
}

// wholeLaw reports whether a key is the whole of the law whose table it stands in:
// put beside another form of that law, it takes its place.
func wholeLaw(table, key string) bool {
	law := Lookup(table)
	return law != nil && slices.ContainsFunc(law.Forms, func(f toml.Form) bool {
		return len(f.Keys) == 1 && f.Keys[0] == key && Lookup(table+"."+key).Kind == toml.Measured
	})
}
