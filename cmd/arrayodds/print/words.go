package print

import (
	"math"
	"strconv"
	"strings"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// typed returns a figure with plain spaces, which can be typed and searched for.
func typed(s string) string { return strings.ReplaceAll(s, "\u202f", " ") }

// odds returns a chance as "1 in N", and its interval beneath.
func odds(e estimate.Estimate) string {
	value := typed(figure.Odds(e))
	if !e.Known() {
		return value
	}
	if e.Value == 0 { // with its bound in words
		return strings.Replace(value, ": at most", ":\nat most", 1)
	}
	return value + "\n" + compact(figure.OddsInterval(e))
}

// compact returns an interval without what its ends have in common with each other
// and with the value above: "1 in 3.89 million to 1 in 3.52 million" is "3.89 to 3.52
// million".
func compact(interval string) string {
	low, high, found := strings.Cut(interval, " to ")
	if !found || low == high {
		return typed(low)
	}
	n, isOdds := strings.CutPrefix(low, "1 in ")
	m, areOdds := strings.CutPrefix(high, "1 in ")
	if isOdds && areOdds { // the likelier end last, as on the pages
		low, high = n, m
	}
	a, b := strings.Split(low, " "), strings.Split(high, " ")
	for len(a) > 1 && len(b) > 1 && a[len(a)-1] == b[len(b)-1] { // a unit of both
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return typed(strings.Join(a, " ") + " to " + high)
}

// terabytes returns a size in TB.
func terabytes(bytes float64) string { return size(bytes / array.TB) }

// days returns a time in hours as days, rounded down: 29.96 days are not the 30 that
// were asked for.
func days(hours float64) string { return size(math.Floor(hours/24*10+1e-9) / 10) }

// size returns a figure of the site itself, with a decimal where there is room, "-"
// if it is not known.
func size(x float64) string {
	switch {
	case math.IsNaN(x):
		return "-"
	case x >= 999.95: // which one decimal shows as 1000.0
		return typed(figure.Whole(x))
	case x >= 0.995 || x == 0:
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return strconv.FormatFloat(x, 'g', 2, 64)
}

// whole returns a count.
func whole(n int) string { return typed(figure.Whole(float64(n))) }

// cost returns the heading of sums in a currency.
func cost(currency string) string {
	if currency == "" {
		return "cost"
	}
	return "cost\n" + plain(currency)
}

// money returns a sum in the site's currency, "-" if it is not known.
func money(x float64) string {
	if math.IsNaN(x) {
		return "-"
	}
	return typed(figure.Whole(x))
}

// years returns a time in hours as years of 8 760 h.
func years(hours float64) string {
	return typed(figure.Years(hours / unit.HoursPerYear))
}

// meets returns whether a choice meets the demand: "yes", "NO", or where the demand
// is estimated and only part of its range is met "likely" or "unlikely".
func meets(z array.Sizing) string {
	switch {
	case z.Meets && !z.AtHigh.Meets && z.AtHigh.Needed > 0:
		return "likely"
	case !z.Meets && z.AtLow.Meets:
		return "unlikely"
	}
	return yes(z.Meets)
}

// between returns a range of figures: "7.8 to 31.1".
func between(low, high string) string { return low + " to " + high }

// toGrow names the room to grow among what is to be held, where there is to be any.
func toGrow(s array.Site) string {
	if s.Growth == 0 {
		return ""
	}
	return ", with the room to grow"
}

// estimated explains figures that rest on estimated bit rates. It is empty if none
// does.
func estimated(s array.Site) []string {
	if !s.Estimated() {
		return nil
	}
	low, high := s.Lowest().Demand(), s.Highest().Demand()
	return []string{paragraph("~ Bit rates are estimated from pixels, frames and codec (common practice, no source): the cameras may need %s TB. Demand met \"yes\" holds for all of that range, \"likely\" for the likely figure but not for the high one, \"unlikely\" for the low one alone. Measure the streams before you buy.",
		between(terabytes(low.Needed), terabytes(high.Needed)))}
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "NO"
}
