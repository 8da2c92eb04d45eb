package unit

import (
	"math"
	"strconv"
	"strings"
)

// kind is one sort of quantity: its units and how to speak of them.
type kind struct {
	units   map[string]float64 // spelling → factor to the unit computed in
	fold    func(string) (string, bool)
	right   string // the units, for an error
	example string
	near    func(value float64, written string) string // a spelling that was perhaps meant
}

// parse reads text as a quantity of the kind.
func (k kind) parse(text string) (float64, error) {
	value, written, err := split(text, k.example)
	if err != nil {
		return 0, err
	}
	wrong := func(why string) (float64, error) {
		e := &Error{Found: because(text, why), Right: k.right}
		if k.near != nil {
			e.Mean = k.near(value, written)
		}
		return 0, e
	}
	if written == "" {
		return wrong("without a unit")
	}
	factor, ok := k.units[written]
	if !ok && k.fold != nil {
		if name, is := k.fold(written); is {
			factor, ok = k.units[name]
		}
	}
	if !ok {
		return wrong("with the unit " + Quote(written))
	}
	v := value * factor
	if math.IsInf(v, 0) {
		return wrong("which is too large")
	}
	if v == 0 && value != 0 {
		return wrong("which is too small")
	}
	return v, nil
}

// shortest returns a number with as few digits as tell it from its neighbours.
func shortest(v float64) string {
	return strings.Replace(strconv.FormatFloat(v, 'g', -1, 64), "e+", "e", 1)
}

// tight takes the blanks around the stroke of a rate out: "MB / s" is "MB/s".
func tight(written string) string {
	before, after, ok := strings.Cut(written, "/")
	if !ok {
		return written
	}
	return strings.TrimSpace(before) + "/" + strings.TrimSpace(after)
}
