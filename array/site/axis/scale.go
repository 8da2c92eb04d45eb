package axis

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/elementary"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// scale is how an axis counts: so many of a unit.
type scale struct {
	unit   string
	factor float64 // from the unit to that computed in
	whole  bool
}

const (
	times    = "x"    // multiples
	bitsRead = "bits" // read per error
)

// scaleOf returns the scale in which a number was written.
func scaleOf(s toml.ReadValue) scale {
	c := scale{factor: 1, whole: s.Whole}
	switch {
	case s.Quantity.Parse == nil:
	case s.Quantity.Name == toml.BitsPerError.Name:
		c.unit = bitsRead
	default:
		if c.unit = unit.Of(s.Written); c.unit != "" {
			c.factor, _ = s.Quantity.Parse("1 " + c.unit) // read once already
		}
	}
	return c
}

// shown returns a number in the unit, without what the division leaves behind the
// fifteenth digit.
func (c scale) shown(base float64) float64 {
	v := base / c.factor
	if clean, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64); err == nil {
		return clean
	}
	return v
}

// text returns a number as one would write it, to so many digits.
func (c scale) text(base float64, digits int) string {
	v := c.shown(base)
	switch {
	case c.unit == bitsRead:
		return "1 in " + strings.Replace(strconv.FormatFloat(v, 'g', digits, 64), "e+", "e", 1) + " bits"
	case c.unit == times:
		return "×" + unit.Digits(v, digits)
	case c.whole:
		digits = 15
	}
	return strings.TrimSpace(unit.Digits(v, digits) + " " + c.unit)
}

// fewDigits and mostDigits are how exactly values are written.
const fewDigits, mostDigits = 4, 15

// texts writes numbers to as few digits as tell them apart.
func (c scale) texts(bases []float64) []string {
	all := make([]string, len(bases))
	for digits := fewDigits; ; digits++ {
		for i, base := range bases {
			all[i] = c.text(base, digits)
		}
		if digits == mostDigits || len(slices.Compact(slices.Clone(all))) == len(all) {
			return all
		}
	}
}

// ratioApart is how many times the first the last value of an axis is where it
// is spaced by ratio.
const ratioApart = 8

// spread returns so many numbers from low to high, spaced by ratio where the range is
// wide and has no zero; whole numbers without repeats where others make no sense.
func spread(low, high float64, points int, whole bool) []float64 {
	all := make([]float64, points)
	log := byRatio(low, high)
	for i := range all {
		f := float64(i) / float64(points-1)
		if log {
			all[i] = low * elementary.Pow(high/low, f)
		} else {
			all[i] = low + (high-low)*f
		}
		if whole {
			all[i] = math.Round(all[i])
		}
	}
	all[0], all[points-1] = low, high
	return slices.Compact(all)
}

func byRatio(low, high float64) bool { return low > 0 && high >= ratioApart*low }
