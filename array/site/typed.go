package site

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/unit"
)

const axisRight = `a path and its values, such as "care.response=4 h..168 h", "choices.*.drive=8 TB,12 TB" or "care.response=x0.25..x4"`

// Axis reads an input and the values that it is to take, as they are typed: a
// range, a list or multiples of what the file has (see the package's doc). points
// is how many values a range has, 2 to [MaxPoints]; ranges of whole numbers have as
// many as there are. The error is of type [Errors].
func (s *Source) Axis(typed string, points int) (*Axis, error) {
	wrong := func(e Error) (*Axis, error) {
		e.Place = clean(typed)
		return nil, Errors{e}
	}
	if points < 2 || points > MaxPoints {
		return wrong(Error{Found: fmt.Sprintf("%d points", points), Right: fmt.Sprintf("2 to %d", MaxPoints)})
	}
	name, values, ok := cutOutside(typed, "=")
	if !ok {
		return wrong(Error{Found: "no equals sign", Right: axisRight})
	}
	w, e := s.resolve(name)
	if e != nil {
		return wrong(*e)
	}
	a := &Axis{Path: w.path, targets: w.targets, Resizes: slices.ContainsFunc(w.targets, target.resizes)}
	items := splitOutside(values, ",")
	if len(items) > MaxPoints {
		return wrong(Error{Key: w.path, Found: fmt.Sprintf("%d values", len(items)), Right: fmt.Sprintf("at most %d", MaxPoints)})
	}
	ranged := false
	if len(items) == 1 {
		if low, high, is := cutOutside(items[0], ".."); is {
			ranged, items = true, []string{low, high}
		}
	}
	for i := range items {
		if items[i] = strings.TrimSpace(items[i]); items[i] == "" {
			return wrong(Error{Key: w.path, Found: "an empty value", Right: axisRight})
		}
	}
	if _, is := multiple(items[0]); is {
		e = s.multiples(a, items, ranged, points)
	} else if err := s.valued(a, items, ranged, points); err != nil {
		return nil, err
	}
	if e != nil {
		return wrong(*e)
	}
	if err := s.checkEnds(a); err != nil {
		return nil, err
	}
	return a, nil
}

// checkEnds reads the file with the multiples at the ends: that of values is done
// where they are read.
func (s *Source) checkEnds(a *Axis) error {
	if a.scale.unit != times {
		return nil
	}
	var all Errors
	for _, v := range []Value{a.Values[0], a.Values[len(a.Values)-1]} {
		if _, err := s.With(a.Set(v)); err != nil {
			all = append(all, err.(Errors)...)
		}
	}
	if len(all) > 0 {
		return all
	}
	return nil
}

// valued reads values of the key's own kind.
func (s *Source) valued(a *Axis, items []string, ranged bool, points int) error {
	var all []reached
	var errs Errors
	for _, item := range items {
		n, e := typedNode(item)
		if e != nil {
			e.Place, e.Key = clean(a.Path+" = "+item), ""
			errs = append(errs, *e)
			continue
		}
		r, wrong := s.try(a, n, item)
		for _, w := range wrong { // of the key, and so the same for each value
			if !slices.ContainsFunc(errs, func(e Error) bool { return e.Key == w.Key && e.Found == w.Found && e.Right == w.Right }) {
				errs = append(errs, w)
			}
		}
		all = append(all, r)
	}
	if len(errs) > 0 {
		return errs
	}
	between := ","
	if ranged {
		between = ".."
	}
	wrong := func(found, right string) error {
		return Errors{{Place: clean(a.Path + " = " + strings.Join(items, between)), Found: found, Right: right}}
	}
	a.Numeric = !slices.ContainsFunc(all, func(r reached) bool { return !r.numeric })
	switch {
	case ranged && !a.Numeric:
		for i, r := range all {
			if !r.numeric {
				return wrong(unit.Quote(items[i])+", which is no number there", "two numbers, or words with commas between")
			}
		}
	case ranged && all[0].value >= all[1].value:
		return wrong("a range that does not rise", "the smaller number first")
	case a.Numeric:
		a.scale = scaleOf(all[0].seen)
		if ranged {
			bases := spread(all[0].value, all[1].value, points, a.scale.whole)
			texts := a.scale.texts(bases)
			texts[0], texts[len(texts)-1] = spaced(all[0].written), spaced(all[1].written)
			a.numeric(bases, texts)
			break
		}
		slices.SortStableFunc(all, func(x, y reached) int {
			if x.value < y.value {
				return -1
			}
			return 1
		})
		var bases []float64
		var texts []string
		for _, r := range all {
			bases, texts = append(bases, r.value), append(texts, spaced(r.written))
		}
		if i := twice(bases); i >= 0 {
			return wrong(texts[i]+" twice", "each value once")
		}
		a.numeric(bases, texts)
	default:
		var texts []string
		for i, r := range all {
			text := r.told
			if text == "" {
				text = items[i]
			}
			texts = append(texts, text)
			a.Values = append(a.Values, Value{Shown: math.NaN(), Text: text, node: r.node, made: true})
		}
		slices.Sort(texts)
		if i := twice(texts); i >= 0 {
			return wrong(unit.Quote(texts[i])+" twice", "each value once")
		}
	}
	a.describe(s.owns(a.targets))
	return nil
}

// twice is the index of a value that the one before it is too; −1 where none is.
func twice[T comparable](sorted []T) int {
	for i := 1; i < len(sorted); i++ {
		if sorted[i] == sorted[i-1] {
			return i
		}
	}
	return -1
}

// reached is a value that was read in its place.
type reached struct {
	node *node
	seen
}

// try reads the file with a value in the axis's places.
func (s *Source) try(a *Axis, n *node, text string) (reached, Errors) {
	saw := &seen{}
	g := newGrafter(s.document.root)
	resize := map[int]bool{}
	for _, t := range a.targets {
		c := n.copied(func(*node) {}).seenBy(saw)
		c.moved(-1)
		g.set(t.steps, c, -1)
		if t.resizes() {
			resize[t.steps[1].item] = true
		}
	}
	_, errs := s.read(g.root, reading{again: true, soft: true, mute: true, resize: func(i int) bool { return resize[i] }})
	if len(errs) > 0 {
		return reached{}, placed(errs, []Setting{{Axis: a, Value: Value{Text: text}}})
	}
	return reached{n, *saw}, nil
}

// multiples reads multiples of what the file has.
func (s *Source) multiples(a *Axis, items []string, ranged bool, points int) *Error {
	var by []float64
	for i, item := range items {
		v, ok := multiple(item)
		if !ok && ranged && i == 1 { // x0.5..2
			v, ok = multiple("x" + item)
		}
		if !ok || !(v >= 1e-6 && v <= 1e6) {
			return &Error{Key: a.Path, Found: unit.Quote(item), Right: "a multiple, such as x0.5 (0.000001 to 1 000 000)"}
		}
		by = append(by, v)
	}
	if ranged {
		if by[0] >= by[1] {
			return &Error{Key: a.Path, Found: "a range that does not rise", Right: "the smaller number first"}
		}
		by = spread(by[0], by[1], points, false)
	} else {
		slices.Sort(by)
		if i := twice(by); i >= 0 {
			return &Error{Key: a.Path, Found: fmt.Sprintf("×%s twice", unit.Digits(by[i], mostDigits)), Right: "each value once"}
		}
	}
	return s.multiply(a, by)
}

// multiply makes an axis of multiples.
func (s *Source) multiply(a *Axis, by []float64) *Error {
	a.scale = scale{unit: times, factor: 1}
	all := s.owns(a.targets)
	a.describe(all)
	if last := a.targets[0].steps; len(last) == 3 && last[0].key == "drives" && last[2].key == "life" {
		a.overLife = true
		a.targets = slices.Clone(a.targets)
		for i, t := range a.targets {
			a.targets[i] = s.document.named(append(slices.Clone(t.steps[:2]), step{key: "hazard_multiplier"}))
		}
		all = s.owns(a.targets)
	}
	some := false
	for i, o := range all {
		last := a.targets[i].steps[len(a.targets[i].steps)-1]
		if o.node != nil && (o.kind == tables || o.kind == list) && !slices.Contains(manifold, last.key) {
			return &Error{Key: a.Path, Found: "multiples of a whole table", Right: "one of its keys: " + strings.Join(o.keys, ", ")}
		}
		some = some || len(o.node.numbers()) > 0
	}
	if !some {
		return &Error{Key: a.Path, Found: fmt.Sprintf("multiples of %s", unit.Quote(a.OwnText)), Right: "values to take its place"}
	}
	a.own = all
	a.numeric(by, a.scale.texts(by))
	return nil
}

// multiple reads "x0.5" or "×0.5".
func multiple(typed string) (float64, bool) {
	rest, ok := strings.CutPrefix(typed, "x")
	if !ok {
		rest, ok = strings.CutPrefix(typed, "×")
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(rest), 64)
	return v, ok && err == nil
}

// typedNode is a value as it is typed: a table or list as TOML writes them, a text
// in quotes or any other.
func typedNode(item string) (*node, *Error) {
	switch item[0] {
	case '{', '[':
		d, _ := parse(strings.NewReader("x = "+item), "") // a reader of a text gives no error
		n := d.root.under["x"]
		if len(d.errs) > 0 || len(d.root.keys) != 1 || n == nil || n.hasSpan() {
			return nil, &Error{Found: unit.Quote(item), Right: `a table or list as the site file has it, such as { exponential = "48 h" }`}
		}
		return n, nil
	case '"':
		in, err := strconv.Unquote(item)
		if err != nil {
			return nil, &Error{Found: clean(item), Right: "quotes about the whole of it"}
		}
		item = in
	}
	return &node{kind: text, typed: true, text: item}, nil
}

// cutOutside cuts a text at the first separator outside of quotes and brackets.
func cutOutside(s, at string) (before, after string, ok bool) {
	i := outside(s, at)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(at):], true
}

// splitOutside splits a text at every separator outside of quotes and brackets.
func splitOutside(s, at string) (all []string) {
	for {
		before, after, more := cutOutside(s, at)
		all = append(all, before)
		if !more {
			return all
		}
		s = after
	}
}

// outside is the first place of a separator outside of quotes and brackets; −1
// where there is none. A quote counts where a key or a value begins.
func outside(s, at string) int {
	deep, begins := 0, true
	for i := 0; i < len(s); i++ {
		if deep == 0 && strings.HasPrefix(s[i:], at) {
			return i
		}
		switch c := s[i]; {
		case c == '"' && (begins || deep > 0):
			if prefix, err := strconv.QuotedPrefix(s[i:]); err == nil {
				i += len(prefix) - 1
			}
		case c == '{' || c == '[':
			deep++
		case (c == '}' || c == ']') && deep > 0:
			deep--
		}
		begins = strings.IndexByte(" .,={[", s[i]) >= 0 && (begins || s[i] != ' ')
	}
	return -1
}
