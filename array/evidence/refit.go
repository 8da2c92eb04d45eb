package evidence

import (
	"math"
	"strconv"

	"arrayodds/array"
	"arrayodds/array/elementary"
)

const groundFit = "the errors of the drive's fit"

// Refit is what a log made of a fit with errors.
type Refit struct {
	Life          array.FittedWeibull // with the log
	Before, After array.Gamma         // of the failures expected at the ages of the log, as times those that the fit expects
	Ground        string              // what Before rests on
}

// Refitted updates a fit by so many failures of the drives of a log. expected returns how
// many failures a law expects of them, all that multiplies its hazard in it. ranges are
// those that the site file gives of the rate beside the fit's errors.
//
// The logarithms of shape and scale are jointly normal before the log, by the fit's errors,
// and the failures are Poisson with the mean expected. What follows is taken as normal
// about its mode, with the curvature there (the Laplace approximation: A. Gelman et al.,
// Bayesian Data Analysis, 3rd edition, 2013, section 4.1). A range of the rate moves the
// scale alone: a hazard that is m times as high is that of a scale m^(−1/shape) times as
// long.
func Refitted(l array.FittedWeibull, ranges []Range, failures float64, expected func(array.Life) float64) Refit {
	b := belief{centre: vector{math.Log(l.Shape), math.Log(l.Scale)}, root: matrix{{l.ShapeError, 0}, {l.Correlation * l.ScaleError, l.ScaleError * math.Sqrt(1-l.Correlation*l.Correlation)}}}
	ground := groundFit
	if mean, variance := logMoments(ranges); variance > 0 {
		ground += ", and " + groundRange
		b.centre[1] -= mean / l.Shape
		b.root[1][1] = math.Sqrt(b.root[1][1]*b.root[1][1] + variance/(l.Shape*l.Shape))
	}
	at := func(x vector) float64 {
		return math.Log(expected(array.WeibullLife{Shape: elementary.Exp(x[0]), Scale: elementary.Exp(x[1])}))
	}
	stated := math.Log(expected(l))
	if math.IsInf(stated, 0) { // these ages tell nothing of it
		return Refit{b.fit(), narrow(1), narrow(1), ground}
	}
	then := b.learn(failures, at)
	multiplier := func(b belief) array.Gamma {
		h := at(b.centre) - stated
		slope, _ := b.slopes(vector{}, at)
		return lognormal(h, slope[0]*slope[0]+slope[1]*slope[1])
	}
	return Refit{then.fit(), multiplier(b), multiplier(then), ground}
}

// lognormal returns the Gamma law with that mean and squared variation of which a
// log-normal law is, its median exp(middle); a very narrow one where there is no variance.
func lognormal(middle, variance float64) array.Gamma {
	mean := elementary.Exp(middle)
	if g, ok := gamma(mean, elementary.Exp(variance)-1); ok {
		return g
	}
	return narrow(mean)
}

type (
	vector [2]float64
	matrix [2]vector
)

// belief is a normal law of the logarithms of shape and scale: centre plus root times two
// independent standard normal variates.
type belief struct {
	centre vector
	root   matrix
}

// at returns the logarithms of shape and scale at two standard normal variates.
func (b belief) at(z vector) vector {
	x := b.centre
	for i := range x {
		x[i] += b.root[i][0]*z[0] + b.root[i][1]*z[1]
	}
	return x
}

// apart is the step of differences, in standard errors: wide enough for the digits of the
// failures expected, and narrow enough for a curve.
const apart = 0.01

// slopes returns the first and the second derivatives of a function at z, by the variates.
func (b belief) slopes(z vector, of func(vector) float64) (first vector, second matrix) {
	f := func(u, v float64) float64 { return of(b.at(vector{z[0] + u*apart, z[1] + v*apart})) }
	middle, east, west, north, south := f(0, 0), f(1, 0), f(-1, 0), f(0, 1), f(0, -1)
	first = vector{(east - west) / (2 * apart), (north - south) / (2 * apart)}
	cross := (f(1, 1) - f(1, -1) - f(-1, 1) + f(-1, -1)) / (4 * apart * apart)
	return first, matrix{{(east - 2*middle + west) / (apart * apart), cross}, {cross, (north - 2*middle + south) / (apart * apart)}}
}

// learn returns the law after so many failures, the logarithm of whose expected number is
// a function of the two.
func (b belief) learn(failures float64, of func(vector) float64) belief {
	misfit := func(z vector) float64 { // minus the logarithm of the density
		h := of(b.at(z))
		return (z[0]*z[0]+z[1]*z[1])/2 - failures*h + elementary.Exp(h)
	}
	var z vector
	curved := func() (down vector, curvature matrix) {
		first, second := b.slopes(z, of)
		mean := elementary.Exp(of(b.at(z)))
		sure := matrix{{1, 0}, {0, 1}}
		full := sure
		for i := range 2 {
			down[i] = (failures-mean)*first[i] - z[i]
			for j := range 2 {
				sure[i][j] += mean * first[i] * first[j]
				full[i][j] = sure[i][j] + (mean-failures)*second[i][j]
			}
		}
		if full[0][0] > 0 && determinant(full) > 0 {
			return down, full
		}
		return down, sure // which always rises to all sides
	}
	const most = 50
	for range most { // Newton's steps, each as long as it helps
		down, curvature := curved()
		step := solved(curvature, down)
		now, next, length := misfit(z), z, 1.0
		for ; length > 1e-6; length /= 2 {
			next = vector{z[0] + length*step[0], z[1] + length*step[1]}
			if misfit(next) <= now {
				break
			}
		}
		if length <= 1e-6 || math.Hypot(step[0], step[1]) < 1e-9 {
			break
		}
		z = next
	}
	_, curvature := curved()
	return belief{b.at(z), spread(b.root, curvature)}
}

func determinant(m matrix) float64 { return m[0][0]*m[1][1] - m[0][1]*m[1][0] }

// solved returns x of m·x = y.
func solved(m matrix, y vector) vector {
	d := determinant(m)
	return vector{(m[1][1]*y[0] - m[0][1]*y[1]) / d, (m[0][0]*y[1] - m[1][0]*y[0]) / d}
}

// spread returns the lower root of root·curvature⁻¹·rootᵀ.
func spread(root, curvature matrix) matrix {
	var c matrix // the covariance
	for i := range 2 {
		for j := range 2 {
			x := solved(curvature, vector{root[j][0], root[j][1]})
			c[i][j] = root[i][0]*x[0] + root[i][1]*x[1]
		}
	}
	a := math.Sqrt(math.Max(0, c[0][0]))
	if a == 0 {
		return matrix{{0, 0}, {0, math.Sqrt(math.Max(0, c[1][1]))}}
	}
	return matrix{{a, 0}, {c[1][0] / a, math.Sqrt(math.Max(0, c[1][1]-c[1][0]*c[1][0]/c[0][0]))}}
}

// fit returns the law as a fit with errors, to the digits on which all processors agree.
func (b belief) fit() array.FittedWeibull {
	l := array.FittedWeibull{Shape: digits(elementary.Exp(b.centre[0]), 9), Scale: digits(elementary.Exp(b.centre[1]), 9),
		ShapeError: digits(b.root[0][0], 6), ScaleError: digits(math.Hypot(b.root[1][0], b.root[1][1]), 6)}
	if l.ShapeError > 0 && l.ScaleError > 0 {
		const most = 0.999999
		l.Correlation = math.Min(math.Max(digits(b.root[1][0]/math.Hypot(b.root[1][0], b.root[1][1]), 6), -most), most)
	}
	return l
}

func digits(x float64, n int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', n, 64), 64)
	if err != nil { // cannot be: the text is the formatter's own
		return x
	}
	return r
}
