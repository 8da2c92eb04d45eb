package site

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// Source is a site file that was read once and can be read again with other
// values in it. It does not change, so that several can read it at a time.
type Source struct {
	document *document
	options  options
	plan     *plan // nil until the file was read
	spans    []*span
	file     *File
	asked    map[string]bool
}

// Open reads a site file as [Read] does, and keeps it to be read again.
func Open(r io.Reader, name string, opts ...Option) (*Source, error) {
	s, _, err := open(r, name, opts...)
	return s, err
}

// open also gives the keys that were asked for, where there are errors too.
func open(from io.Reader, name string, opts ...Option) (*Source, map[string]bool, error) {
	d, err := parse(from, name)
	if err != nil {
		return nil, nil, err
	}
	s := &Source{document: d, asked: map[string]bool{}}
	for _, o := range opts {
		o(&s.options)
	}
	s.spans = d.findSpans()
	r := &reader{document: d, options: s.options, asked: s.asked}
	s.file = r.whole()
	r.strays(s.spans)
	if len(d.errs) == 0 {
		s.plan = r.planned
		s.tryEnds()
	}
	if len(d.errs) > 0 {
		return nil, s.asked, d.errs.sorted()
	}
	return s, s.asked, nil
}

// whole reads the tree with its assumptions.
func (r *reader) whole() *File {
	f := r.in(r.document.root, "", "").file()
	for _, n := range r.sortedNotes() {
		f.Assumptions = append(f.Assumptions, n.Assumption)
	}
	return f
}

// read reads another tree than the file's.
func (s *Source) read(root *node, how reading) (*File, Errors) {
	d := *s.document
	d.root, d.errs = root, nil
	how.plan = s.plan
	r := &reader{document: &d, reading: how, options: s.options}
	f := r.whole()
	if len(d.errs) > 0 {
		return nil, d.errs
	}
	return f, nil
}

// tryEnds reads the file with each end of each range in its place: what spans
// several keys, such as a number of drives that the layout cannot take, is found
// only so.
func (s *Source) tryEnds() {
	for _, p := range s.spans {
		for i, end := range []*node{p.low, p.high} {
			saw := &seen{}
			g := newGrafter(s.document.root)
			g.set(p.at, end.copied(func(*node) {}).seenBy(saw), p.line)
			_, errs := s.read(g.root, reading{again: true, mute: true})
			for _, e := range errs {
				e.Found += fmt.Sprintf(", where %s is %s", p.path, end.brief())
				s.document.errs = append(s.document.errs, e)
			}
			p.ends[i] = reached{node: end, seen: *saw}
		}
	}
}

// seenBy has a node watched.
func (n *node) seenBy(s *seen) *node {
	n.seen = s
	return n
}

// File is the site file as it stands, with the likely value of each range. It is
// not to be changed.
func (s *Source) File() *File { return s.file }

// Setting gives an input a value, or asks for drives to fit; see [Axis.Set] and
// [Resize].
type Setting struct {
	Axis  *Axis
	Value Value

	resize resizing
}

// resizing says which choices get the fewest drives that hold the demand.
type resizing int

const (
	resizeNone resizing = iota
	resizeSet
	resizeAll
)

// Resize has every choice whose drive or layout another setting of the same
// reading gives take the fewest drives that hold the demand
// ([array.Choice.Fewest]), its hot spares as they are. Without cameras there is no
// demand, and drives stay as they are.
func Resize() Setting { return Setting{resize: resizeSet} }

// ResizeAll is [Resize] for every choice, set or not.
func ResizeAll() Setting { return Setting{resize: resizeAll} }

// said is the setting as one would type it.
func (s Setting) said() string {
	if s.Axis == nil {
		return "drives to fit"
	}
	return clean(s.Axis.Path + " = " + s.Value.Text)
}

// With reads the site file again with other values in it. Every bound and check
// of the reader holds for them too; the error is of type [Errors], and its place
// is the setting as one would type it. Only a choice that its drives, groups or
// bays do not fit is no error: the File lists it as Unfit.
//
// Values of different inputs may stand beside each other, in any order; two for
// one place are an error, save that what multiplies a drive's life also multiplies
// a hazard multiplier that is set.
func (s *Source) With(set ...Setting) (*File, error) {
	g := newGrafter(s.document.root)
	// What multiplies a life may stand beside a value of the multiplier, and comes
	// after it.
	values, lives := settled{map[string]int{}, map[string]int{}}, settled{map[string]int{}, map[string]int{}}
	asked, resize := resizeNone, map[int]bool{}
	var errs Errors
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
				errs = append(errs, Error{Line: line, Key: t.path, Found: "it beside " + set[other].said(), Right: "one of the two"})
				return
			}
			if n := a.node(g.root, v, j); n != nil {
				n.moved(line)
				g.set(t.steps, n, line)
			}
			if t.resizes() {
				resize[t.steps[1].item] = true
			}
		}
	}
	for i, to := range set {
		asked = max(asked, to.resize)
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
	how := reading{again: true, soft: true}
	if asked != resizeNone {
		how.resize = func(choice int) bool { return asked == resizeAll || resize[choice] }
	}
	f, errs := s.read(g.root, how)
	if len(errs) > 0 {
		return nil, placed(errs, set)
	}
	return f, nil
}

// moved gives a node and all beneath it the place of a setting.
func (n *node) moved(line int) {
	n.line = line
	for _, under := range n.under {
		under.moved(line)
	}
	for _, item := range n.items {
		item.moved(line)
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

// resizes says whether a place is the drive or the layout of a choice.
func (t target) resizes() bool {
	return len(t.steps) == 3 && t.steps[0].key == "choices" && (t.steps[2].key == "drive" || t.steps[2].key == "layout")
}

// alike makes one error of those that a setting of several places has alike in
// each.
func alike(errs Errors, set []Setting) (all Errors) {
	for _, e := range errs {
		i := slices.IndexFunc(all, func(was Error) bool {
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

// clean is what was typed on one line, quoted where it does not read well.
func clean(typed string) string {
	s := spaced(strings.ToValidUTF8(typed, "\ufffd"))
	if s == "" || len([]rune(s)) > maxLabel || strings.ContainsFunc(s, unprintable) {
		return unit.Quote(s)
	}
	return s
}

// maxSaid is how many settings an error names where it is of all of them.
const maxSaid = 3

// placed gives errors their settings as places.
func placed(errs Errors, set []Setting) Errors {
	var said []string
	for _, one := range set {
		if one.Axis != nil {
			said = append(said, one.said())
		}
	}
	if more := len(said) - maxSaid; more > 0 {
		said = append(said[:maxSaid], fmt.Sprintf("%d more", more))
	}
	errs = alike(errs, set).sorted()
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
		e.Right = unquoted.Replace(e.Right)
	}
	return errs
}
