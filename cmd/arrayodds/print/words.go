package print

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"arrayodds/array"
	"arrayodds/sim"
)

// oneIn is a chance as "1 in N", and its interval beneath.
func oneIn(e sim.Estimate) string {
	switch {
	case e.High <= 0:
		return "none"
	case e.Value <= 0: // plain mode, which saw nothing
		n := scaleOf(1 / e.High)
		return fmt.Sprintf("none seen\n(at most 1 in %s)", n.full(1/e.High, 0.05/e.High))
	}
	n, half := 1/e.Value, (e.High-e.Low)/2/e.Value/e.Value
	s := scaleOf(n)
	if e.Low == e.High { // a closed form
		return "1 in " + s.full(n, 0)
	}
	if e.Low <= 0 {
		return fmt.Sprintf("1 in %s\n(over 1 in %s)", s.full(n, half), s.full(1/e.High, half))
	}
	return fmt.Sprintf("1 in %s\n(%s to %s)", s.full(n, half), s.short(1/e.High, half), s.short(1/e.Low, half))
}

// scale is how a large number is said.
type scale struct {
	unit float64
	name string
}

// scaleOf chooses by size. Beyond a billion the words mean different things to
// different people, so powers of ten take over.
func scaleOf(n float64) scale {
	switch {
	case n < 1e6:
		return scale{1, ""}
	case n < 1e9:
		return scale{1e6, " million"}
	}
	power := math.Floor(math.Log10(n))
	return scale{math.Pow(10, power), fmt.Sprintf(" × 10^%.0f", power)}
}

func (s scale) short(n, half float64) string { return rounded(n/s.unit, half/s.unit) }
func (s scale) full(n, half float64) string  { return s.short(n, half) + s.name }

// rounded writes x to the decimal place that an uncertainty of half supports,
// which is the place of half's own first digit; with two significant digits at
// least and four at most.
func rounded(x, half float64) string {
	if x == 0 {
		return "0"
	}
	first := math.Floor(math.Log10(math.Abs(x)))
	place := first - 2
	if half > 0 {
		place = math.Floor(math.Log10(half))
	}
	place = math.Min(math.Max(place, first-3), first-1)
	if place >= 0 {
		unit := math.Pow(10, place)
		return grouped(math.Round(x/unit) * unit)
	}
	return strconv.FormatFloat(x, 'f', int(-place), 64)
}

// grouped is a whole number with blanks between thousands.
func grouped(x float64) string {
	digits := strconv.FormatFloat(math.Abs(math.Round(x)), 'f', 0, 64)
	var b strings.Builder
	if x < 0 {
		b.WriteByte('-')
	}
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(d)
	}
	return b.String()
}

// terabytes is a size to a tenth, finer below one.
func terabytes(bytes float64) string { return size(bytes / array.TB) }

// days is a time of so many hours, in days.
func days(hours float64) string { return size(hours / 24) }

func size(x float64) string {
	switch {
	case math.IsNaN(x):
		return "-"
	case x >= 1000:
		return grouped(x)
	case x >= 1 || x == 0:
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return strconv.FormatFloat(x, 'g', 2, 64)
}

// years is a time of so many hours, in the model's years.
func years(hours float64) string {
	n := strconv.FormatFloat(hours/array.HoursPerYear, 'g', 4, 64)
	if n == "1" {
		return "1 year"
	}
	return n + " years"
}

// money is a sum in the site's currency, "-" where it is not known.
func money(x float64) string {
	if math.IsNaN(x) {
		return "-"
	}
	return grouped(x)
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "NO"
}
