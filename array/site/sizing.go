package site

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"arrayodds/array"
	"arrayodds/array/toml"
)

var sizingKey = Key{Path: "sizing", Kind: toml.SubTable, Doc: "What is customary where drives are counted."}

// sizingKeys returns a key for each layout whose groups may be of more than one width.
func sizingKeys() []Key {
	var widths []Key
	for _, l := range array.WidthLevels() {
		w := array.Layout{Level: l}.Width()
		widths = append(widths, Key{Path: l.String(), Kind: toml.Whole, Min: strconv.Itoa(w.Least), Max: strconv.Itoa(array.MaxDrives), Default: strconv.Itoa(w.Most),
			Doc: fmt.Sprintf("The drives of a group of %s at the most.", l)})
	}
	return toml.Inside(Key{Path: "customary_width", Kind: toml.SubTable,
		Doc: "How wide a group may be by custom, by layout; case, blanks and hyphens do not matter, and what is wider is offered and flagged."}, widths)
}

// readSizing reads how wide groups are by custom, where that is not what it is anywhere.
// No result rests on it, and so it is not noted.
func readSizing(t *toml.Table) map[array.Level]int {
	s := t.Child("sizing")
	if s == nil {
		return nil
	}
	s.Quiet = true
	defer s.Done()
	c := s.Child("customary_width")
	if c == nil {
		return nil
	}
	c.Quiet = true
	nameLayouts(c)
	widths := map[array.Level]int{}
	for _, l := range array.WidthLevels() {
		most := 0
		if c.Given(l.String()) {
			c.Count(l.String(), &most)
		} else {
			c.Know(l.String())
		}
		if most > 0 && most != (array.Layout{Level: l}).Width().Most {
			widths[l] = most
		}
	}
	c.Done()
	if len(widths) == 0 {
		return nil
	}
	return widths
}

// nameLayouts calls the keys of a table by the layouts that they name, however that is
// written. The tree itself stays, as several may read it at a time.
func nameLayouts(t *toml.Table) {
	n := *t.Node
	n.Keys, n.Under = slices.Clone(n.Keys), maps.Clone(n.Under)
	for i, key := range n.Keys {
		l, err := array.ParseLayout(key)
		name := l.String()
		if err != nil || name == key || l.Level == array.Erasure {
			continue
		}
		value := n.Under[key]
		delete(n.Under, key)
		if n.Under[name] != nil {
			t.WrongAt(value, key, "the width of "+name+" again", "one width for each layout", "")
			n.Keys[i] = name
			continue
		}
		n.Keys[i], n.Under[name] = name, value
	}
	t.Node = &n
}
