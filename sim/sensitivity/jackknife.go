package sensitivity

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// jackknife returns each figure of all replicates, with an interval from the figures
// that are left when one replicate at a time is left out. figures returns them without
// one (−1: with all).
func jackknife(figures func(out int) []float64) []Estimate {
	t := distuv.StudentsT{Sigma: 1, Nu: Replicates - 1}.Quantile(0.975)
	whole := figures(-1)
	var without [Replicates][]float64
	for r := range without {
		without[r] = figures(r)
	}
	out := make([]Estimate, len(whole))
	for i, x := range whole {
		mean := 0.0
		for _, w := range without {
			mean += w[i] / Replicates
		}
		squares := 0.0
		for _, w := range without {
			squares += (w[i] - mean) * (w[i] - mean)
		}
		reach := t * math.Sqrt(squares*(Replicates-1)/Replicates)
		out[i] = Estimate{x, x - reach, x + reach}
	}
	return out
}

// share brings an estimate of a share of the whole back to 0 to 1.
func (e Estimate) share() Estimate {
	in := func(x float64) float64 { return math.Min(1, math.Max(0, x)) }
	return Estimate{in(e.Value), in(e.Low), in(e.High)}
}

// plus returns the estimate plus a number without chance.
func (e Estimate) plus(x float64) Estimate { return Estimate{e.Value + x, e.Low + x, e.High + x} }

// means is the means of the replicates.
type means [Replicates]float64

// without returns the mean of all but one (−1: of all), less that of the first.
func (m *means) without(out int) float64 {
	sum, n := 0.0, 0.0
	for r, x := range m {
		if r != out {
			sum += x - m[0]
			n++
		}
	}
	return sum / n
}

// mean returns the mean of some figures.
func mean(of []float64) float64 {
	sum := 0.0
	for _, x := range of {
		sum += x - of[0]
	}
	return of[0] + sum/float64(len(of))
}
