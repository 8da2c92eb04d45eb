package axis

import (
	"strings"

	"arrayodds/array/label"
	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// Called returns what people call the input, in a sentence: "yearly failure rate of the
// 16 TB drives".
func (a *Axis) Called() string {
	first := a.targets[0]
	name := called(first.steps)
	if name == "" {
		return a.Path
	}
	if a.overLife { // multiples of the life are of its hazard
		name = "failures"
	}
	of := ""
	if len(first.steps) > 2 {
		own, all := itemWords(first.steps[0].Key)
		switch {
		case own == "":
		case len(a.targets) > 1:
			of = " of " + all
		default:
			of = " of " + strings.Replace(own, "%", label.Short(first.label), 1)
		}
	}
	return name + of
}

// called returns what the key at the end of some steps is called, or else the table that
// it is in.
func called(steps []toml.Step) string {
	var keys []string
	for _, s := range steps {
		if s.Key != "" {
			keys = append(keys, s.Key)
		}
	}
	for n := len(keys); n > 0; n-- {
		if k := site.Lookup(strings.Join(keys[:n], ".")); k != nil && k.Called != "" {
			return k.Called
		}
	}
	return ""
}

// itemWords returns how one item of a list is spoken of, with % for its label, and how
// all of them are; empty for what is no list of labelled things.
func itemWords(list string) (one, all string) {
	switch list {
	case "drives":
		return "the % drives", "all drives"
	case "choices":
		return "“%”", "all choices"
	case "cameras":
		return "“%”", "all cameras"
	}
	return "", ""
}

// Caution returns what a reader of the values has to know of them; empty where that is
// nothing.
func (a *Axis) Caution() string {
	if a.overLife {
		return "Multiples of a life are multiples of its failures: ×4 is four times as many at every age, not four times as long a life."
	}
	return ""
}
