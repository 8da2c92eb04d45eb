package axis

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/elementary"
	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// An axis around the file's own value goes from its quarter to its fourfold; of whole
// numbers at least to so many more.
const (
	aroundTimes = 4
	aroundWhole = 4
)

// Around returns the axis of an input over some values around that of the file, which is
// among them: from a quarter of it to its fourfold, as far as the key's bounds and the rest
// of the file allow. A law, and what differs among the places that the path names, goes by
// multiples. The path is one as [Source.Axis] takes it, or one with the places of things
// in their lists, counted from 0, for their labels: drives.0.life.afr. The error is of
// type [site.Errors], such as for a value of 0, which has no multiples.
func (s *Source) Around(path string, points int) (*Axis, error) {
	wrong := func(e site.Error) (*Axis, error) {
		e.Place = clean(path)
		return nil, site.Errors{e}
	}
	points = min(max(points, 3), MaxPoints)
	w, e := s.found(path)
	if e != nil {
		return wrong(*e)
	}
	a := &Axis{Path: w.path, targets: w.targets, Resizes: slices.ContainsFunc(w.targets, target.resizes)}
	all := s.current(a.targets)
	base := all[0].number()
	for _, o := range all {
		if o.number() != base { // NaN too: no number
			base = math.NaN()
		}
	}
	if math.IsNaN(base) {
		by := around(1, 1./aroundTimes, aroundTimes, points, false)
		if e := s.multiply(a, by); e != nil {
			return wrong(*e)
		}
	} else {
		a.scale = scaleOf(*all[0].Read)
		low, high := base/aroundTimes, base*aroundTimes
		if a.scale.whole {
			low, high = math.Floor(low), max(high, base+aroundWhole)
		}
		if key := keyOf(w.targets[0]); key != nil && key.Limits() != "" {
			least, most := key.Bounds()
			low, high = max(low, min(least, base)), min(high, max(most, base))
		}
		if low == high {
			return wrong(site.Error{Key: a.Path, Found: "0, which has no multiples", Right: "values to take its place"})
		}
		bases := around(base, low, high, points, a.scale.whole)
		a.numeric(bases, a.scale.texts(bases))
		a.describe(all)
	}
	return s.allowed(a)
}

// allowed returns an axis without the values with which the file cannot be read.
func (s *Source) allowed(a *Axis) (*Axis, error) {
	var refused error
	a.Values = slices.DeleteFunc(a.Values, func(v Value) bool {
		_, err := s.With(a.Set(v))
		if err != nil {
			refused = err
		}
		return err != nil
	})
	if len(a.Values) < 2 {
		return nil, refused
	}
	return a, nil
}

// around returns about so many numbers from low to high, with base among them, spaced by
// ratio where none is 0.
func around(base, low, high float64, points int, whole bool) []float64 {
	share := 0.5 // of the points, below base
	if low > 0 {
		share = math.Log(base/low) / math.Log(high/low)
	} else {
		share = (base - low) / (high - low)
	}
	below := int(math.Round(share * float64(points-1)))
	all := []float64{base}
	between := func(to float64, n int) {
		for i := 1; i <= n; i++ {
			f := float64(i) / float64(n)
			x := base + (to-base)*f
			if low > 0 {
				x = base * elementary.Pow(to/base, f)
			}
			if i == n {
				x = to
			}
			if whole {
				x = math.Round(x)
			}
			all = append(all, x)
		}
	}
	if low < base {
		between(low, max(1, below))
	}
	if base < high {
		between(high, max(1, points-1-below))
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// keyOf returns the key of the site file that a place has; nil where there is none.
func keyOf(t target) *site.Key {
	var keys []string
	for _, step := range t.steps {
		if step.Key != "" {
			keys = append(keys, step.Key)
		}
	}
	key := site.Lookup(strings.Join(keys, "."))
	if key != nil && key.Inherits != "" {
		return site.Lookup(key.Inherits)
	}
	return key
}

// found finds what a path names, in which places may stand for labels.
func (s *Source) found(path string) (where, *site.Error) {
	steps, ok := s.places(path)
	if !ok {
		return s.resolve(path)
	}
	t := s.target(steps)
	return where{path: t.path, targets: []target{t}}, nil
}

// places returns the steps of a path with the places of things in their lists; false
// where it is none.
func (s *Source) places(path string) (steps []toml.Step, ok bool) {
	some := false
	for rest := path; rest != ""; {
		var key string
		if key, rest, ok = segment(rest); !ok {
			return nil, false
		}
		if n := s.doc.Root.Find(steps); len(steps) > 0 && n != nil && n.Kind == toml.ListNode {
			i, err := strconv.Atoi(key)
			if err != nil || i < 0 || i >= len(n.Items) || strconv.Itoa(i) != key {
				return nil, false
			}
			steps, some = append(steps, toml.Step{Item: i}), true
			continue
		}
		steps = append(steps, toml.Step{Key: key})
	}
	last := len(steps) - 1
	return steps, some && last > 0 && steps[last].Key != "" && steps[last].Key != "label" && !site.Descriptive(steps[0].Key)
}
