package axis

import (
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// mergeSame makes one error of those that a setting of several places has the same in
// each.
func mergeSame(errs site.Errors, set []Setting) (all site.Errors) {
	for _, e := range errs {
		i := slices.IndexFunc(all, func(was site.Error) bool {
			return e.Line < 0 && was.Line == e.Line && was.Found == e.Found && was.Right == e.Right && was.Mean == e.Mean
		})
		switch {
		case i < 0:
			all = append(all, e)
		case e.Key != all[i].Key:
			all[i].Key = set[-e.Line-1].Axis.Path
		}
	}
	return all
}

// clean returns what was typed on one line, quoted where it does not read well.
func clean(typed string) string {
	s := spaced(strings.ToValidUTF8(typed, "\ufffd"))
	if s == "" || len([]rune(s)) > toml.MaxText || strings.ContainsFunc(s, toml.Unprintable) {
		return unit.Quote(s)
	}
	return s
}

// maxSaid is how many settings an error names where it is of all of them.
const maxSaid = 3

// placed gives errors their settings as places.
func placed(errs site.Errors, set []Setting) site.Errors {
	var said []string
	for _, one := range set {
		if one.Axis != nil {
			said = append(said, one.said())
		}
	}
	if more := len(said) - maxSaid; more > 0 {
		said = append(said[:maxSaid], fmt.Sprintf("%d more", more))
	}
	errs = mergeSame(errs, set).Sorted()
	for i := range errs {
		e := &errs[i]
		e.Place = strings.Join(said, ", ")
		if e.Line < 0 {
			one := set[-e.Line-1]
			e.Place = one.said()
			if e.Key == one.Axis.Path {
				e.Key = ""
			}
		}
		e.Line, e.File = 0, ""
		e.Right = toml.Unquoted(e.Right)
	}
	return errs
}
