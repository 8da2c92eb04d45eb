package axis

import (
	"io"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// Source is a site file that was read once and can be read again with other
// values in it. It does not change, so that several can read it at a time.
type Source struct{ doc *site.Document }

// Open reads a site file as [site.Read] does, and keeps it to be read again.
func Open(r io.Reader, name string, opts ...site.Option) (*Source, error) {
	d, err := site.Open(r, name, opts...)
	if err != nil {
		return nil, err
	}
	s := &Source{d}
	if err := s.checkOptions(); err != nil {
		return nil, err
	}
	return s, nil
}

// File returns the site file as it stands, with the likely value of each range. It
// is not to be changed.
func (s *Source) File() *site.File { return s.doc.File() }

// With reads the site file again with other values in it. Every bound and check
// of the reader holds for them too; the error is of type [site.Errors], and its place
// is the setting as one would type it. Only a choice that its drives, groups or
// bays do not fit is no error: the File lists it as Unfit. It lists no assumptions.
//
// Values of different inputs may stand beside each other, in any order; two for
// one place are an error, save that what multiplies a drive's life also multiplies
// a hazard multiplier that is set.
func (s *Source) With(set ...Setting) (*site.File, error) { return s.with(set, site.Reading{}) }

// with reads the file as With does, in another way where how says so.
func (s *Source) with(set []Setting, how site.Reading) (*site.File, error) {
	root, err := s.tree(set)
	if err != nil {
		return nil, err
	}
	asked, resize := resizes(set)
	how.Lenient, how.Mute = true, true
	if asked != resizeNone {
		how.Resize = func(choice int) bool { return asked == resizeAll || resize[choice] }
	}
	f, errs := s.doc.ReadTree(root, how)
	if len(errs) > 0 {
		return nil, placed(errs, set)
	}
	return f, nil
}

// resizes returns which choices are to have drives that fit.
func resizes(set []Setting) (asked resizing, resize map[int]bool) {
	resize = map[int]bool{}
	for _, to := range set {
		asked = max(asked, to.resize)
		if to.Axis == nil {
			continue
		}
		for _, t := range to.Axis.targets {
			if t.resizes() {
				resize[t.steps[1].Item] = true
			}
		}
	}
	return asked, resize
}

// tree returns the tree of the file with other values in it.
func (s *Source) tree(set []Setting) (*toml.Node, error) {
	o := s.doc.Overlay()
	// What multiplies a life may stand beside a value of the multiplier, and comes
	// after it.
	values, lives := settled{map[string]int{}, map[string]int{}}, settled{map[string]int{}, map[string]int{}}
	var errs site.Errors
	one := func(i int, a *Axis, taken settled) {
		line := -1 - i
		v, e := a.settle(set[i].Value)
		if e != nil {
			e.Line = line
			errs = append(errs, *e)
			return
		}
		for j, t := range a.targets {
			if other, free := taken.take(t, i); !free {
				errs = append(errs, site.Error{Line: line, Key: t.path, Found: "it beside " + set[other].said(), Right: "one of the two"})
				return
			}
			if n := a.node(o.Root, v, j); n != nil {
				n.Move(line)
				o.Set(t.steps, n, line)
			}
			fit, refitted := s.refitted(t)
			switch {
			case v.drawn && refitted:
				o.KnownFit(t.steps[1].Item, s.doc.Root, fit)
			case v.drawn && t.steps[len(t.steps)-1].Key == "hazard_multiplier":
				o.Known(t.steps[1].Item)
			case v.drawn:
				withoutErrors(o, t.steps)
			}
		}
	}
	for i, to := range set {
		if to.Axis != nil && !to.Axis.overLife {
			one(i, to.Axis, values)
		}
	}
	for i, to := range set {
		if to.Axis != nil && to.Axis.overLife {
			one(i, to.Axis, lives)
		}
	}
	if len(errs) > 0 {
		return nil, placed(errs, set)
	}
	return o.Root, nil
}

// refitted returns what the site's log made of the fit of which a target is a parameter;
// false where it is none.
func (s *Source) refitted(t target) (fit array.FittedWeibull, ok bool) {
	if len(t.steps) != 4 || t.steps[0].Key != "drives" || t.steps[2].Key != "life" || t.steps[3].Key != "shape" && t.steps[3].Key != "scale" {
		return fit, false
	}
	model := s.File().Site.Drives[t.steps[1].Item]
	fit, ok = model.Life.(array.FittedWeibull)
	return fit, ok && model.Log != nil
}

// withoutErrors takes away the errors of a fitted life of which a parameter is set: its
// value was drawn from them.
func withoutErrors(o site.Overlay, parameter []toml.Step) {
	for _, key := range []string{"shape_error", "scale_error"} {
		steps := append(slices.Clone(parameter[:len(parameter)-1]), toml.Step{Key: key})
		if n := o.Root.Find(steps); n != nil {
			o.Set(steps, &toml.Node{Kind: toml.MeasuredNode, Line: n.Line}, n.Line)
		}
	}
}

// settled is the places that settings have taken.
type settled struct {
	at     map[string]int // place → setting
	within map[string]int // what a place taken lies in → setting
}

// take gives a place to a setting. Where it is taken, or something that it lies
// in or that lies in it, other is the setting that has it.
func (s settled) take(t target, by int) (other int, free bool) {
	for _, key := range t.keys {
		if other, taken := s.at[key]; taken {
			return other, false
		}
	}
	whole := t.keys[len(t.keys)-1]
	if other, taken := s.within[whole]; taken {
		return other, false
	}
	s.at[whole] = by
	for _, key := range t.keys {
		s.within[key] = by
	}
	return 0, true
}

// Meets reports whether a place of the input is one of the other, or lies in it, so
// that no two values of them can stand beside each other.
func (a *Axis) Meets(other *Axis) bool {
	if a.overLife != other.overLife {
		return false
	}
	taken := settled{map[string]int{}, map[string]int{}}
	for _, t := range a.targets {
		taken.take(t, 0)
	}
	return slices.ContainsFunc(other.targets, func(t target) bool {
		_, free := taken.take(t, 1)
		return !free
	})
}

// resizes reports whether a place is the drive or the layout of a choice.
func (t target) resizes() bool {
	return len(t.steps) == 3 && t.steps[0].Key == "choices" && (t.steps[2].Key == "drive" || t.steps[2].Key == "layout")
}
