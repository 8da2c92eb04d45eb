package draw

import "math"

// Tick is a place on an axis with its words. The page's script sets ticks so
// given in place of those that the chart script would choose.
type Tick struct {
	At   float64 `json:"at"`
	Text string  `json:"text"`
}

// LinearTicks returns round values within low and high, at most so many; low alone
// where high is not above it.
func LinearTicks(low, high float64, most int) []float64 {
	if !(high > low) {
		return []float64{low}
	}
	for step := math.Pow(10, math.Floor(math.Log10(high-low))-1); ; step *= 10 {
		for _, m := range []float64{1, 2, 5} {
			first, last := math.Ceil(low/(m*step)-1e-9), math.Floor(high/(m*step)+1e-9)
			if n := int(last-first) + 1; n > most {
				continue
			}
			var at []float64
			for k := first; k <= last; k++ {
				at = append(at, significant(k*m*step))
			}
			return at
		}
	}
}

// significant returns x to nine digits.
func significant(x float64) float64 {
	if x == 0 {
		return 0
	}
	unit := math.Pow(10, 8-math.Floor(math.Log10(math.Abs(x))))
	if math.IsInf(unit, 0) {
		return x
	}
	return math.Round(x*unit) / unit
}

// steps are the digits at which ticks of a scale by ratio may stand, the closest
// first.
var steps = [][]float64{{1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9}, {1, 2, 3, 5, 7}, {1, 2, 5}, {1, 3}, {1}}

// LogTicks returns round values within low and high, which are above 0, spaced by
// ratio, at most so many; where there are not two round ones, the ends themselves.
func LogTicks(low, high float64, most int) []float64 {
	first, last := int(math.Floor(math.Log10(low))), int(math.Ceil(math.Log10(high)))
	for every := 1; ; every++ {
		for _, digits := range steps {
			if every > 1 && len(digits) > 1 {
				continue
			}
			var at []float64
			for e := first; e <= last; e++ {
				if e%every != 0 {
					continue
				}
				for _, d := range digits {
					if x := significant(d * math.Pow(10, float64(e))); x >= low*(1-1e-9) && x <= high*(1+1e-9) {
						at = append(at, x)
					}
				}
			}
			switch {
			case len(at) > most:
				continue
			case len(at) < 2 && high > low:
				return []float64{low, high}
			case len(at) == 0:
				return []float64{low}
			}
			return at
		}
	}
}
