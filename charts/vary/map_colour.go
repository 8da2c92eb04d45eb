package vary

import (
	"fmt"
	"math"

	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// heatStops are the colours of a map, from the safest to the riskiest: each is
// darker than the one before, so that they are told apart without hue, and on a
// grey print.
var heatStops = [][3]float64{{247, 243, 231}, {238, 208, 148}, {217, 150, 88}, {172, 86, 74}, {96, 34, 66}}

// ownSymbol marks the site file's own values.
var ownSymbol = draw.Symbol{Shape: draw.Diamond, Colour: draw.Ink, Hollow: true}

// heatScale gives loss chances, as decimal logarithms, their colours.
type heatScale struct {
	low, high int // powers of ten
	step      int // between the colours of the key
}

func heatScaleFor(low, high float64) heatScale {
	s := heatScale{low: int(math.Floor(low)), high: int(math.Ceil(high)), step: 1}
	if s.high == s.low {
		s.high++
	}
	for (s.high-s.low)/s.step > 8 {
		s.step++
	}
	return s
}

func (s heatScale) colour(at float64) string {
	f := (at - float64(s.low)) / float64(s.high-s.low) * float64(len(heatStops)-1)
	f = math.Min(math.Max(f, 0), float64(len(heatStops)-1))
	i := min(int(f), len(heatStops)-2)
	f -= float64(i)
	var c [3]int
	for k := range c {
		c[k] = int(math.Round(heatStops[i][k] + f*(heatStops[i+1][k]-heatStops[i][k])))
	}
	return fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2])
}

// key returns a swatch for each power of ten, and the signs.
func (s heatScale) key(signs int, own bool) []draw.KeyEntry {
	var key []draw.KeyEntry
	for e := s.high; e >= s.low; e -= s.step {
		key = append(key, draw.KeyEntry{Drawing: draw.Swatch(s.colour(float64(e)), ""), Text: oneIn(float64(e))})
	}
	for _, sign := range []struct {
		bit  int
		path string
		text string
	}{
		{hatchedCell, "M2 10L10 2M2 18L18 2M10 18L18 10", "known to worse than ±25 %"},
		{absentCell, "M6 6L14 14M14 6L6 14", "no figure: see the notes"},
		{noneCell, "M6 10H14", "no loss was found"},
	} {
		if signs&sign.bit != 0 {
			key = append(key, draw.KeyEntry{Drawing: draw.Swatch(draw.Paper, sign.path), Text: sign.text})
		}
	}
	if signs&shortCell != 0 {
		key = append(key, draw.KeyEntry{Drawing: draw.RingSwatch(draw.Faint), Text: "does not hold the footage"})
	}
	if own {
		key = append(key, draw.KeyEntry{Drawing: ownSymbol.Drawing(), Text: "as in the site file"})
	}
	return key
}

// oneIn returns a chance, given as its decimal logarithm, as odds of one significant
// digit.
func oneIn(e float64) string {
	n := math.Pow(10, -e)
	switch {
	case e >= 0:
		return "certain"
	case n < 1e6: // in digits: figure.Chance has words, and tells likely ones in 100
		return "1 in " + figure.Whole(n)
	}
	p := 1 / n
	return figure.Odds(estimate.Estimate{Value: p, High: 2 * p}) // one digit
}
