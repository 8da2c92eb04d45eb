package flags

import (
	"errors"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/unit"
	"arrayodds/sim/study"
)

// Values of a range where --points says nothing: of one input, and of each of two.
const Points, PairPoints = 25, 13

// Variation returns what --over and the flags beside it ask for of a request. It notes
// nothing where --over is not given.
func (r Reader) Variation(asked study.Request) study.Variation {
	v := study.Variation{Request: asked, Against: -1, Resize: r.Bool("resize")}
	points := Points
	if r.IsSet("and") {
		points = PairPoints
	}
	points = WholeNumber(r, "points", 2, axis.MaxPoints, points)
	if r.IsSet("target") && r.IsSet("as-safe-as") {
		r.Wrong("found --target and --as-safe-as; right would be one of them")
	}
	var file *site.File
	if asked.Source != nil {
		file = asked.Source.File()
		v.Axes = r.axes(asked.Source, points)
	}
	all := fileOf(file).Site.Choices
	if r.IsSet("against") {
		if v.Against = r.labelled("against", r.String("against"), all); v.Against >= 0 {
			v.Choices = insertSorted(v.Choices, v.Against)
		}
	}
	switch {
	case r.IsSet("as-safe-as"):
		v.Target = &study.Target{As: r.labelled("as-safe-as", r.String("as-safe-as"), all)}
	case r.IsSet("target"):
		chance, err := unit.Odds(r.String("target"))
		if err != nil {
			r.Wrong("--target: %v", err)
		}
		v.Target = &study.Target{Chance: chance}
	}
	if v.Target != nil && r.Fine() {
		if len(v.Axes) != 1 || !v.Axes[0].Numeric || len(v.Axes[0].Values) < 2 {
			r.Wrong("--target and --as-safe-as solve for one input that is a number over a range")
		}
	}
	return v
}

// axes returns the inputs of --over and --and with their values.
func (r Reader) axes(source *axis.Source, points int) (axes []*axis.Axis) {
	for _, name := range []string{"over", "and"} {
		if !r.IsSet(name) {
			continue
		}
		found, err := source.Axis(r.String(name), points)
		if errs, ok := errors.AsType[site.Errors](err); ok {
			for _, e := range errs {
				r.Wrong("--%s: %v", name, e)
			}
			continue
		}
		if err != nil {
			r.Wrong("--%s: %v", name, err)
			continue
		}
		axes = append(axes, found)
	}
	if len(axes) == 2 && axes[0].Meets(axes[1]) {
		r.Wrong("--and: found %s beside --over %s; right would be another input", axes[1].Path, axes[0].Path)
	}
	return axes
}
