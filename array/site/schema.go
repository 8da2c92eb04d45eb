package site

import (
	"slices"
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
		toml.Inside(camerasKey, cameraKeys),
		toml.Inside(drivesKey, driveKeys),
		toml.Inside(evidence.Key, evidence.Keys),
		toml.Inside(choicesKey, choiceKeys),
		toml.Inside(optionsKey, optionKeys),
		toml.Inside(careKey, careKeys),
		toml.Inside(hazardsKey, hazardKeys),
		toml.Inside(recorderKey, recorderKeys),
		toml.Inside(documentKey, documentKeys),
		toml.Inside(buildKey, buildKeys),
		toml.Inside(sizingKey, sizingKeys()),
		toml.Inside(goalKey, goalKeys),
		toml.Inside(runKey, runKeys),
	))
})

// overriding returns a table of a choice that overrides the site's of the same name.
func overriding(of Key, keys []Key) []Key {
	all := toml.Inside(of, keys)
	for i := range all {
		all[i].Inherits, all[i].Absent = all[i].Path, ""
	}
	return all
}

// wholeLaw reports whether a key is the whole of the law whose table it stands in:
// put beside another form of that law, it takes its place.
func wholeLaw(table, key string) bool {
	law := Lookup(table)
	return law != nil && slices.ContainsFunc(law.Forms, func(f toml.Form) bool {
		return len(f.Keys) == 1 && f.Keys[0] == key && Lookup(table+"."+key).Kind == toml.Measured
	})
}
