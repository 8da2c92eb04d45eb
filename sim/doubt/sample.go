package doubt

import (
	"math"
	"slices"

	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Sample is a chance at the settings of a design. What is not known is NaN.
type Sample struct {
	// Likely is the chance as entered, from the streams of each replicate.
	Likely [Replicates]float64
	// Chance is that at each setting of each replicate, and Noise the relative standard
	// error of its ratio to the chance as entered.
	Chance, Noise [Replicates][]float64
}

// t95 is how many standard errors of a jackknife over replicates a 95 % interval reaches.
var t95 = distuv.StudentsT{Sigma: 1, Nu: Replicates - 1}.Quantile(0.975)

// Mean returns the mean of the chance over the laws of the inputs: what to reckon with who
// has exactly this doubt. entered is the chance as entered by a longer run, which the mean
// goes by: it is entered times how many times that the settings come to from the same
// streams. Where no input moves anything it is entered.
//
// A surface is fitted to the chances, of which the mean is known; what the settings are
// off it on average is added. So a few settings tell the mean of a chance that most of
// its inputs move tenfold.
func (s *Sample) Mean(entered estimate.Estimate, inputs *Inputs) estimate.Estimate {
	var sums [Replicates]float64
	settings, moved := 0.0, false
	for r := range s.Chance {
		for _, x := range s.Chance[r] {
			if !math.IsNaN(x) {
				sums[r] += x
				settings++
				moved = moved || x != s.Likely[r]
			}
		}
	}
	switch {
	case !entered.Known() || settings == 0:
		return estimate.None()
	case !moved:
		return entered
	case !(entered.Value > 0):
		return plainMean(sums, settings)
	}
	ratio, se := s.ratio(-1, nil), s.jackknife(nil)
	if inputs != nil && s.positive() {
		if by, e := s.ratio(-1, inputs), s.jackknife(inputs); by > 0 && e < se {
			ratio, se = by, e
		}
	}
	if !(ratio > 0) || !(se < math.Inf(1)) {
		return plainMean(sums, settings)
	}
	reach := math.Hypot(t95*se, estimate.Z95*entered.RelativeError)
	value := entered.Value * ratio
	e := estimate.Estimate{Value: value, Low: value * elementary.Exp(-reach), High: value * elementary.Exp(reach), RelativeError: math.Hypot(se, entered.RelativeError)}
	return e.AtMostOne()
}

// positive reports whether every chance is above 0, so that it has a logarithm.
func (s *Sample) positive() bool {
	for r := range s.Chance {
		if !(s.Likely[r] > 0) || slices.ContainsFunc(s.Chance[r], func(p float64) bool { return !(p > 0) }) {
			return false
		}
	}
	return true
}

// ratio returns how many times the chance as entered the settings come to, without one
// replicate where that is 0 or more, by a surface where there are inputs.
func (s *Sample) ratio(without int, inputs *Inputs) float64 {
	var rows [][]float64
	var y []float64
	sum, base := 0.0, 0.0
	for r := range s.Chance {
		if r == without {
			continue
		}
		for k, p := range s.Chance[r] {
			if math.IsNaN(p) {
				continue
			}
			sum += p
			base += s.Likely[r]
			if inputs != nil {
				rows, y = append(rows, inputs.Places[r][k]), append(y, math.Log(p))
			}
		}
	}
	if inputs == nil || len(rows) == 0 || len(rows[0]) == 0 {
		return sum / base
	}
	fitted := fit(rows, y)
	for _, row := range rows {
		sum -= fitted.at(row)
	}
	n := float64(len(rows))
	return (fitted.expected(inputs.Laws) + sum/n) / (base / n)
}

// jackknife returns the relative standard error of ratio, by the ratios with each
// replicate left out.
func (s *Sample) jackknife(inputs *Inputs) float64 {
	var logs [Replicates]float64
	for r := range logs {
		logs[r] = math.Log(s.ratio(r, inputs))
	}
	_, variance := moments(logs[:])
	const n = Replicates
	if !(variance >= 0) {
		return math.Inf(1)
	}
	return math.Sqrt(variance * (n - 1) * (n - 1) / n)
}

// plainMean returns the mean without a chance as entered to go by.
func plainMean(sums [Replicates]float64, settings float64) estimate.Estimate {
	mean, variance := moments(sums[:])
	part := settings / Replicates
	return estimate.FromError(mean/part, math.Sqrt(variance/Replicates)/part, Replicates-1).AtMostOne()
}

// moments returns the mean and the variance, summed in the order in which they stand:
// gonum's sums run in another on each kind of processor.
func moments(x []float64) (mean, variance float64) {
	n := float64(len(x))
	for _, v := range x {
		mean += v / n
	}
	for _, v := range x {
		variance += (v - mean) * (v - mean) / (n - 1)
	}
	return mean, variance
}

// Quantiles returns the quantiles of the chance over the settings, on the scale of the
// chance as entered by a longer run. What the simulation adds to the variance of the
// logarithm is taken out. NaN where nothing is known.
func (s *Sample) Quantiles(entered float64, at ...float64) []float64 {
	out := make([]float64, len(at))
	x, noise := s.logarithms(entered)
	if x == nil { // some are 0
		x = s.known()
		if len(x) == 0 {
			for i := range out {
				out[i] = math.NaN()
			}
			return out
		}
		for i, p := range at {
			out[i] = stat.Quantile(p, stat.LinInterp, x, nil)
		}
		return out
	}
	quieten(x, noise)
	for i, p := range at {
		out[i] = math.Min(1, elementary.Exp(stat.Quantile(p, stat.LinInterp, x, nil)))
	}
	return out
}

// quieten takes the variance that noise adds out of x, which draws nearer to its mean.
func quieten(x []float64, noise float64) {
	mean, variance := moments(x)
	if !(variance > 0) {
		return
	}
	keep := math.Sqrt(math.Max(0, 1-noise/variance))
	for i := range x {
		x[i] = mean + keep*(x[i]-mean)
	}
}

// logarithms returns the logarithms of the chances in ascending order, and the mean
// variance that noise adds to each; nil where one of them is 0.
func (s *Sample) logarithms(entered float64) (x []float64, noise float64) {
	for r := range s.Chance {
		scale := 0.0
		if s.Likely[r] > 0 && entered > 0 {
			scale = math.Log(entered / s.Likely[r])
		}
		for k, p := range s.Chance[r] {
			switch {
			case math.IsNaN(p):
			case p <= 0:
				return nil, 0
			case p == s.Likely[r] && entered > 0: // nothing moved it
				x = append(x, math.Log(entered))
			default:
				x = append(x, math.Log(p)+scale)
				noise += s.Noise[r][k] * s.Noise[r][k]
			}
		}
	}
	if len(x) == 0 {
		return nil, 0
	}
	slices.Sort(x)
	return x, noise / float64(len(x))
}

// known returns the chances that there are, in ascending order.
func (s *Sample) known() (x []float64) {
	for r := range s.Chance {
		for _, p := range s.Chance[r] {
			if !math.IsNaN(p) {
				x = append(x, p)
			}
		}
	}
	slices.Sort(x)
	return x
}

// Share returns the share of the settings at which the chance, on the scale of the chance
// as entered, is at most so much; NaN where nothing is known.
func (s *Sample) Share(entered, most float64) float64 {
	x, noise := s.logarithms(entered)
	if x == nil {
		x = s.known()
		met := 0
		for _, p := range x {
			if p <= most {
				met++
			}
		}
		return float64(met) / float64(len(x))
	}
	quieten(x, noise)
	met := 0
	for _, p := range x {
		if p <= math.Log(most) {
			met++
		}
	}
	return float64(met) / float64(len(x))
}

// Safer returns the share of the settings at which a has a lower chance than b; equal
// ones count half. It is NaN where no setting has both.
func Safer(a, b *Sample) float64 {
	safer, n := 0.0, 0.0
	for r := range a.Chance {
		for k := range min(len(a.Chance[r]), len(b.Chance[r])) {
			x, y := a.Chance[r][k], b.Chance[r][k]
			switch {
			case math.IsNaN(x) || math.IsNaN(y):
				continue
			case x < y:
				safer++
			case x == y:
				safer += 0.5
			}
			n++
		}
	}
	return safer / n
}
