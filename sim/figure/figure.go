package figure

import (
	"math"
	"strconv"
	"strings"

	"arrayodds/sim/estimate"
)

// exactDigits is the number of significant digits of a figure without an
// interval of its own.
const exactDigits = 4

// space groups digits by three: a narrow space that does not break.
const space = "\u202f"

// Place returns the power of ten of the last digit that value ± half supports: -5 for
// 0.00047 ± 0.00003. With half 0 (a closed form) it leaves four significant digits.
// It never rounds the first digit of the value away, whatever half is: a reader is
// better served by "about 3, 0 to 9" than by "0".
func Place(value, half float64) int {
	value = math.Abs(value)
	if half <= 0 || math.IsNaN(half) {
		if value == 0 {
			return 0
		}
		return exponent(value) - exactDigits + 1
	}
	place := exponent(half)
	if value > 0 {
		place = min(place, exponent(value))
		place = max(place, exponent(value)-exactDigits+1)
	}
	return place
}

// exponent returns floor(log10 x), safe at powers of ten.
func exponent(x float64) int {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0
	}
	s := strconv.FormatFloat(math.Abs(x), 'e', -1, 64)
	e, _ := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
	return e
}

// Half returns the half-width of the interval of e.
func Half(e estimate.Estimate) float64 { return (e.High - e.Low) / 2 }

// Number writes the value of e, in digits or, where there would be too many
// noughts, as a power of ten.
func Number(e estimate.Estimate) string {
	if Half(e) == 0 {
		return Exact(e.Value)
	}
	return number(e.Value, Place(e.Value, Half(e)))
}

// Exact writes a figure that has no interval.
func Exact(x float64) string {
	if math.IsNaN(x) {
		return "not known"
	}
	place := Place(x, 0)
	if math.Abs(x) >= 1 {
		place = min(place, 0)
	}
	return trimmed(number(x, place))
}

// trimmed leaves out the noughts that end a closed form: 72 says as much as
// 72.00, which would look like a measurement.
func trimmed(s string) string {
	mantissa, power, found := strings.Cut(s, " × ")
	if strings.Contains(mantissa, ".") {
		mantissa = strings.TrimRight(strings.TrimRight(mantissa, "0"), ".")
	}
	if found {
		return mantissa + " × " + power
	}
	return mantissa
}

// Whole writes a count or a sum of money without decimals.
func Whole(x float64) string {
	if math.IsNaN(x) {
		return "not known"
	}
	return digits(x, 0)
}

// Interval writes the 95 % interval of e, "0.11 to 0.13"; one that is narrow by how
// narrow it is, "±0.4 %". A closed form has none and gives "exact".
func Interval(e estimate.Estimate) string {
	if e.High == e.Low {
		return "exact"
	}
	if within, narrow := within(e); narrow {
		return within
	}
	place := Place(e.Value, Half(e)) - 1
	low := down(e.Low, min(place, exponent(e.Low)))
	high := up(e.High, place)
	return number(low, min(place, exponent(e.Low))) + " to " + number(high, place)
}

// narrowest is the half-width, as a share of the figure, below which the ends of an
// interval would be told by digits that nobody needs.
const narrowest = 0.01

// within writes an interval that is narrow: "±0.4 %", rounded up.
func within(e estimate.Estimate) (text string, narrow bool) {
	half := math.Max(e.High-e.Value, e.Value-e.Low) / math.Abs(e.Value)
	if !(half < narrowest) { // NaN too
		return "", false
	}
	percent := 100 * half
	place := exponent(percent)
	if place < -2 {
		return "±0.01 %", true
	}
	return "±" + strconv.FormatFloat(up(percent, place), 'f', max(0, -place), 64) + " %", true
}

// number returns x to the place, in digits where that is readable.
func number(x float64, place int) string {
	x = round(x, place)
	if x == 0 {
		return "0"
	}
	if e := exponent(x); e < -3 || e >= 9 {
		return Power(x, place)
	}
	return digits(x, place)
}

// Power writes x to the place as a × 10ⁿ.
func Power(x float64, place int) string {
	x = round(x, place)
	if x == 0 {
		return "0"
	}
	e := exponent(x)
	mantissa := strconv.FormatFloat(x/math.Pow(10, float64(e)), 'f', max(0, e-place), 64)
	return mantissa + " × 10" + raised(e)
}

// digits writes x with digits down to the place, grouped by three.
func digits(x float64, place int) string {
	s := strconv.FormatFloat(round(x, place), 'f', max(0, -place), 64)
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "−", s[1:]
	}
	whole, rest, found := strings.Cut(s, ".")
	var b strings.Builder
	for i, d := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(space)
		}
		b.WriteRune(d)
	}
	if found {
		b.WriteString("." + rest)
	}
	return sign + b.String()
}

// raised writes n as an exponent, 10⁻⁴ for -4.
func raised(n int) string {
	return strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴",
		"5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(strconv.Itoa(n))
}

// round, down and up go by way of the decimal, so that 0.3 stays 0.3 and an
// end that stands on the place already is not pushed to the next.
func round(x float64, place int) float64 { return onPlace(x, place, math.Round) }
func down(x float64, place int) float64 {
	return onPlace(x, place, func(q float64) float64 { return math.Floor(q + 1e-9*math.Abs(q)) })
}
func up(x float64, place int) float64 {
	return onPlace(x, place, func(q float64) float64 { return math.Ceil(q - 1e-9*math.Abs(q)) })
}

func onPlace(x float64, place int, f func(float64) float64) float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	if place >= 0 {
		unit := math.Pow(10, float64(place))
		return f(x/unit) * unit
	}
	unit := math.Pow(10, float64(-place))
	if math.IsInf(unit, 0) {
		return x
	}
	return f(x*unit) / unit
}
