package model

import (
	"math"
	"slices"

	"arrayodds/sim/cholesky"
	"arrayodds/sim/estimate"
)

// minBatches is the number of batches below which no coefficients are fitted: common
// practice asks for ten observations and more for each (no source).
const minBatches = 48

// minYearBatches is the same for a year's chance of a loss, which has more controls.
const minYearBatches = 64

// rankTolerance is the share of a control's variance that the ones before it must
// leave, or it is taken to say nothing of its own.
const rankTolerance = 1e-9

// noCross is the square below which a figure's products with controls, which are as small
// where failures are as rare, may be no numbers.
const noCross = 1e-280

// farFromZero is the square of how many standard errors the mean of a control may be from
// the 0 that it is known to be: beyond, the few lives that make up for the others were
// not among these, and what a regression makes of the others means nothing.
const farFromZero = 25

// Fit makes estimates of sums: means over lives, with what they have in common with
// the controls taken out by least squares. Make it with [NewFit].
//
// With y a figure and c the controls, batch by batch, the mean of y − β·c has the mean
// of y for every β, and the least variance at the β of a regression of y on c (S. S.
// Lavenberg, P. D. Welch, "A perspective on the use of control variables to increase
// the efficiency of Monte Carlo simulations", Management Science 27(3), 1981; from
// memory). The interval is that of the regression's constant.
type Fit struct {
	sums    *Sums
	batches float64
	means   Controls        // of the controls, by batch
	used    []Control       // that vary, and not as others do
	factor  cholesky.Factor // of the used ones' sums of squares about their means
	byMeans []float64       // L⁻¹·m, for the factor L and the used ones' means m
	year    *yearSums       // of a year of the curve; nil for other figures
	ofYear  []YearControl   // used ones of it, after the others
	// leverage is 1 + n·m·M⁻¹·m, M the sums of squares about the means.
	leverage float64
}

// NewFit returns the fit of sums.
func NewFit(s *Sums) *Fit {
	f := &Fit{sums: s, batches: s.N / batchLives, leverage: 1}
	if f.batches < minBatches {
		return f
	}
	for c := range f.means {
		f.means[c] = s.Controls[c] / f.batches
	}
	for c := range fitted {
		f.use(Control(c))
	}
	f.solveMeans()
	return f
}

// solveMeans fills in what the means of the used controls make for all figures.
func (f *Fit) solveMeans() {
	f.byMeans = make([]float64, 0, len(f.used)+len(f.ofYear))
	for _, c := range f.used {
		f.byMeans = append(f.byMeans, f.means[c])
	}
	for _, c := range f.ofYear {
		f.byMeans = append(f.byMeans, f.year.sum[c]/f.batches)
	}
	f.factor.SolveLower(f.byMeans)
	f.leverage = 1
	for _, z := range f.byMeans {
		f.leverage += f.batches * z * z
	}
}

// aboutMeans returns the sums of the products of a figure and the used controls about
// their means: of a figure with those products, with the controls of a year too, of that
// mean by batch once the weight that came, so much for a life, is taken out of it.
func (f *Fit) aboutMeans(cross *Controls, ofYear *YearControls, perLife, mean float64) []float64 {
	about := make([]float64, 0, len(f.used)+len(f.ofYear))
	for _, c := range f.used {
		about = append(about, cross[c]-perLife*f.sums.controlCross[Weights][c]-f.batches*mean*f.means[c])
	}
	for _, c := range f.ofYear {
		about = append(about, ofYear[c]-perLife*f.year.cross[c][Weights]-mean*f.year.sum[c])
	}
	return about
}

// use adds a control to the factor, unless it says nothing of its own.
func (f *Fit) use(c Control) {
	all := f.about(c, c)
	if f.isFar(f.means[c], all) {
		return
	}
	var products []float64
	for _, d := range f.used {
		products = append(products, f.about(c, d))
	}
	if f.factor.Extend(append(products, all), rankTolerance) {
		f.used = append(f.used, c)
	}
}

// isFar reports whether the mean by batch of a control, of which the squares about the
// mean add up to that, is too far from 0 for a regression.
func (f *Fit) isFar(mean, squares float64) bool {
	return f.batches*(f.batches-1)*mean*mean > farFromZero*squares
}

// withYear returns the fit for the chance of a loss by the end of a year, counted from 0:
// with the controls of the years until then.
func (f *Fit) withYear(i int) *Fit {
	g := *f
	g.year = &f.sums.years[i]
	if f.batches < minYearBatches {
		return &g
	}
	g.factor = slices.Clip(f.factor)
	for c := range yearControls {
		mean := g.year.sum[c] / f.batches
		all := g.year.own[c][c] - mean*g.year.sum[c]
		if f.isFar(mean, all) {
			continue
		}
		var products []float64
		for _, d := range f.used {
			products = append(products, g.year.cross[c][d]-g.year.sum[c]*f.means[d])
		}
		for _, d := range g.ofYear {
			products = append(products, g.year.own[c][d]-mean*g.year.sum[d])
		}
		if g.factor.Extend(append(products, all), rankTolerance) {
			g.ofYear = append(g.ofYear, c)
		}
	}
	g.solveMeans()
	return &g
}

// about returns the sum of the products of two controls about their means.
func (f *Fit) about(c, d Control) float64 {
	return f.sums.controlCross[c][d] - f.batches*f.means[c]*f.means[d]
}

// Estimate returns the mean of a quantity over lives. A chance in plain lives is a
// [estimate.Proportion].
func (f *Fit) Estimate(q Quantity) estimate.Estimate {
	if f.sums.Plain && (q == Loss || q == Any || q == LossBeforeWhole) {
		return estimate.Proportion(f.sums.Sum[q], f.sums.N)
	}
	return f.estimate(f.sums.Sum[q], f.sums.Sum[q], &f.sums.amounts[q], YearControls{})
}

// Adjusted returns what takes out of the loss chance of some of the lives of the sums
// what it has in common with the controls, as [Fit.Estimate] does for all of them.
func (f *Fit) Adjusted() func(*Sample) float64 {
	if len(f.used) == 0 {
		return func(s *Sample) float64 { return s.Loss }
	}
	perLife := f.sums.Sum[Loss] / f.sums.N
	mean := perLife * (batchLives - f.means[Weights])
	by := f.factor.SolveUpper(f.factor.SolveLower(f.aboutMeans(&f.sums.amounts[Loss].cross, &YearControls{}, perLife, mean)))
	return func(s *Sample) float64 {
		x := s.Loss - perLife*s.Controls[Weights]
		for i, c := range f.used {
			x -= by[i] * s.Controls[c]
		}
		return x
	}
}

// Curve returns the chance of a first loss by the end of year i, counted from 0.
func (f *Fit) Curve(i int) estimate.Estimate {
	if f.sums.Plain {
		return estimate.Proportion(f.sums.Curve[i], f.sums.N)
	}
	if i < len(f.sums.Curve)-1 { // the last is the loss chance itself
		f = f.withYear(i)
	}
	return f.estimate(f.sums.Curve[i], f.sums.Sum[Loss], &f.sums.curve[i], f.sums.years[i].loss)
}

// Step returns the chance of a first loss by the end of step i, counted from 0.
func (f *Fit) Step(i int) estimate.Estimate {
	if f.sums.Plain {
		return estimate.Proportion(f.sums.Steps[i], f.sums.N)
	}
	return f.estimate(f.sums.Steps[i], f.sums.Sum[Loss], &f.sums.steps[i], YearControls{})
}

// estimate returns the mean over lives of a figure of that sum and those products, of
// which those with the controls of a year stand by themselves. most is the sum if all lives
// had what those have that have any: a loss by the end of a year is a loss in few of them.
func (f *Fit) estimate(sum, most float64, p *products, year YearControls) estimate.Estimate {
	if sum == 0 {
		return estimate.Exact(0)
	}
	used := len(f.used) + len(f.ofYear)
	if used > 0 && p.square < noCross {
		return (&Fit{sums: f.sums, batches: f.batches, leverage: 1}).estimate(sum, most, p, year)
	}
	square, cross, scale := p.square, p.cross, 1.0
	if square < tinySquare {
		scale = 1 / tinyUnit
		square = p.tiny
		for c := range cross {
			cross[c] *= scale
		}
		for c := range year {
			year[c] *= scale
		}
	}
	n := f.batches
	perLife := sum * scale / f.sums.N
	mean := perLife * batchLives
	if used > 0 { // the weight that came, at the figure itself
		square += perLife * (perLife*f.sums.controlCross[Weights][Weights] - 2*cross[Weights])
		mean -= perLife * f.means[Weights]
	}
	spread := square - n*mean*mean
	varies := spread > 1e-12*square // else rounding of equal terms
	for i, z := range f.factor.SolveLower(f.aboutMeans(&cross, &year, perLife, mean)) {
		spread -= z * z
		mean -= z * f.byMeans[i]
	}
	free := n - 1 - float64(used)
	variance := 0.0
	if varies { // though the controls may tell all of it
		variance = f.leverage * math.Max(0, spread) / free / n
		// What comes once in as many lives as there are may not have been seen.
		unseen := max(mean, most*scale/f.sums.N*batchLives) / f.sums.N
		variance += unseen * unseen
	}
	e := estimate.FromError(mean, math.Sqrt(variance), free)
	return e.Times(1 / (batchLives * scale))
}
