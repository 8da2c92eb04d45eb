package figure

import (
	"math"
	"strings"

	"arrayodds/sim/estimate"
)

// commonChance is where odds of "1 in N" stop being natural: 0.61 is 61 in 100,
// not 1 in 1.6.
const commonChance = 0.1

// nearlyOne is the chance from which on a report says "all but certain": one
// decimal of a percentage does not tell it from certainty.
const nearlyOne = 0.9995

// Odds writes a chance as odds: "1 in 2 100", "61 in 100", "all but certain".
// A chance of exactly 0 is "none"; one that is 0 only because a run saw
// nothing gives what can still be: "not seen: at most 1 in 3 300".
func Odds(e estimate.Estimate) string {
	switch {
	case math.IsNaN(e.Value):
		return "not known"
	case e.Value == 0 && e.High > 0:
		return "not seen: at most " + odds(e.High, e.High, 1, up)
	case e.Value == 0:
		return "none"
	}
	return odds(e.Value, Half(e), 0, round)
}

// OddsInterval writes the 95 % interval of a chance as odds, the likelier end
// last: "1 in 2 300 to 1 in 2 000"; one that is narrow by how narrow it is, "±0.4 %". A closed form gives "exact".
func OddsInterval(e estimate.Estimate) string {
	if e.High == e.Low {
		return "exact"
	}
	if within, narrow := within(e); narrow {
		return within
	}
	low := "0"
	if e.Low > 0 {
		low = odds(e.Low, endHalf(e, e.Low), 1, down)
	}
	return low + " to " + odds(e.High, endHalf(e, e.High), 1, up)
}

// endHalf returns the half-width to round an end of e by: the same share of the end
// as the half-width is of the value.
func endHalf(e estimate.Estimate, end float64) float64 {
	if e.Value == 0 {
		return end
	}
	return Half(e) / e.Value * end
}

// Chance writes a chance with no interval of its own as odds.
func Chance(p float64) string {
	return Odds(estimate.Estimate{Value: p, Low: p, High: p})
}

// odds writes p ± half, with so many further digits. toward rounds p; its N is
// rounded the other way, which is the same direction of risk.
func odds(p, half float64, further int, toward func(float64, int) float64) string {
	if p >= nearlyOne {
		return "all but certain"
	}
	if p >= commonChance {
		place := max(Place(p*100, half*100)-further, -1)
		return digits(toward(p*100, place), place) + " in 100"
	}
	n := 1 / p
	place := Place(n, half/p*n) - further
	text := large(-toward(-n, place), place)
	if half == 0 {
		text = plain(text)
	}
	return "1 in " + text
}

// plain leaves out the noughts that end a closed form, as [Exact] does, before a
// word as well: "1 million" says as much as "1.000 million".
func plain(s string) string {
	n, word, found := strings.Cut(s, " ")
	if n = trimmed(n); found {
		return n + " " + word
	}
	return n
}

// large writes n with a word for its millions, which a reader takes in faster
// than noughts. A billion is 10⁹, a trillion 10¹².
func large(n float64, place int) string {
	for _, w := range []struct {
		e    int
		name string
	}{{12, "trillion"}, {9, "billion"}, {6, "million"}} {
		switch e := exponent(n); {
		case e >= 15:
			return Power(n, place)
		case e >= w.e:
			return digits(n/math.Pow(10, float64(w.e)), min(place-w.e, 0)) + " " + w.name
		}
	}
	return digits(n, min(place, 0))
}
