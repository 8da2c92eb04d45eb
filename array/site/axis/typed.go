package axis

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

const axisRight = `a path and its values, such as "care.response=4 h..168 h", "choices.*.drive=8 TB,12 TB" or "care.response=x0.25..x4"`

// Axis reads an input and the values that it is to take, as they are typed: a
// range, a list or multiples of what the file has (see the package's doc). points
// is how many values a range has, 2 to [MaxPoints]; ranges of whole numbers have as
// many as there are. The error is of type [Errors].
func (s *Source) Axis(typed string, points int) (*Axis, error) {
	wrong := func(e site.Error) (*Axis, error) {
		e.Place = clean(typed)
		return nil, site.Errors{e}
	}
	if points < 2 || points > MaxPoints {
		return wrong(site.Error{Found: fmt.Sprintf("%d points", points), Right: fmt.Sprintf("2 to %d", MaxPoints)})
	}
	name, values, ok := cutOutside(typed, "=")
	if !ok {
		return wrong(site.Error{Found: "no equals sign", Right: axisRight})
	}
	w, e := s.resolve(name)
	if e != nil {
		return wrong(*e)
	}
	a := &Axis{Path: w.path, targets: w.targets, Resizes: slices.ContainsFunc(w.targets, target.resizes)}
	items := splitOutside(values, ",")
	if len(items) > MaxPoints {
		return wrong(site.Error{Key: w.path, Found: fmt.Sprintf("%d values", len(items)), Right: fmt.Sprintf("at most %d", MaxPoints)})
	}
	ranged := false
	if len(items) == 1 {
		if low, high, is := cutOutside(items[0], ".."); is {
			ranged, items = true, []string{low, high}
		}
	}
	for i := range items {
		if items[i] = strings.TrimSpace(items[i]); items[i] == "" {
			return wrong(site.Error{Key: w.path, Found: "an empty value", Right: axisRight})
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
	var all site.Errors
	for _, v := range []Value{a.Values[0], a.Values[len(a.Values)-1]} {
		if _, err := s.With(a.Set(v)); err != nil {
			all = append(all, err.(site.Errors)...)
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
	var errs site.Errors
	for _, item := range items {
		n, e := typedNode(item)
		if e != nil {
			e.Place, e.Key = clean(a.Path+" = "+item), ""
			errs = append(errs, *e)
			continue
		}
		r, wrong := s.try(a, n, item)
		for _, w := range wrong { // of the key, and so the same for each value
			if !slices.ContainsFunc(errs, func(e site.Error) bool { return e.Key == w.Key && e.Found == w.Found && e.Right == w.Right }) {
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
		return site.Errors{{Place: clean(a.Path + " = " + strings.Join(items, between)), Found: found, Right: right}}
	}
	a.Numeric = !slices.ContainsFunc(all, func(r reached) bool { return !r.Numeric })
	switch {
	case ranged && !a.Numeric:
		for i, r := range all {
			if !r.Numeric {
				return wrong(unit.Quote(items[i])+", which is no number there", "two numbers, or words with commas between")
			}
		}
	case ranged && all[0].Value >= all[1].Value:
		return wrong("a range that does not rise", "the smaller number first")
	case a.Numeric:
		a.scale = scaleOf(all[0].ReadValue)
		if ranged {
			bases := spread(all[0].Value, all[1].Value, points, a.scale.whole)
			texts := a.scale.texts(bases)
			texts[0], texts[len(texts)-1] = spaced(all[0].Written), spaced(all[1].Written)
			a.numeric(bases, texts)
			break
		}
		slices.SortStableFunc(all, func(x, y reached) int {
			if x.Value < y.Value {
				return -1
			}
			return 1
		})
		var bases []float64
		var texts []string
		for _, r := range all {
			bases, texts = append(bases, r.Value), append(texts, spaced(r.Written))
		}
		if i := twice(bases); i >= 0 {
			return wrong(texts[i]+" twice", "each value once")
		}
		a.numeric(bases, texts)
	default:
		var texts []string
		for i, r := range all {
			text := r.Noted
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
	a.describe(s.current(a.targets))
	return nil
}

// twice returns the index of a value that the one before it is too; −1 where none is.
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
	node *toml.Node
	toml.ReadValue
}

// try reads the file with a value in the axis's places.
func (s *Source) try(a *Axis, n *toml.Node, text string) (reached, site.Errors) {
	saw := &toml.ReadValue{}
	o := s.doc.Overlay()
	resize := map[int]bool{}
	for _, t := range a.targets {
		c := n.Copy().WatchedBy(saw)
		c.Move(-1)
		o.Set(t.steps, c, -1)
		if t.resizes() {
			resize[t.steps[1].Item] = true
		}
	}
	_, errs := s.doc.ReadTree(o.Root, site.Reading{Lenient: true, Mute: true, Resize: func(i int) bool { return resize[i] }})
	if len(errs) > 0 {
		errs = placed(errs, []Setting{{Axis: a, Value: Value{Text: text}}})
		for i := range errs {
			if right := s.wholePaths(a); right != "" && errs[i].Found == toml.UnknownKey {
				errs[i].Right, errs[i].Mean = right, ""
			}
		}
		return reached{}, errs
	}
	return reached{n, *saw}, nil
}

// typedNode returns a value as it is typed: a table or list as TOML writes them, a text
// in quotes or any other.
func typedNode(item string) (*toml.Node, *site.Error) {
	switch item[0] {
	case '{', '[':
		d, _ := toml.Parse(strings.NewReader("x = "+item), "") // a reader of a text gives no error
		n := d.Root.Under["x"]
		if len(d.Errs) > 0 || len(d.Root.Keys) != 1 || n == nil || n.HasRange() {
			return nil, &site.Error{Found: unit.Quote(item), Right: `a table or list as the site file has it, such as { exponential = "48 h" }`}
		}
		return n, nil
	case '"':
		in, err := strconv.Unquote(item)
		if err != nil {
			return nil, &site.Error{Found: clean(item), Right: "quotes about the whole of it"}
		}
		item = in
	}
	return &toml.Node{Kind: toml.StringNode, Typed: true, Text: item}, nil
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

// outside returns the first place of a separator outside of quotes and brackets; −1
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
