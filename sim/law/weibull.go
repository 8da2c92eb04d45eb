package law

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/sim/stream"
)

func init() {
	addLife(func(of array.WeibullLife, scale float64) (Life, float64) {
		// A multiplied hazard is the same law with a shorter scale.
		return Weibull{Shape: of.Shape, Scale: of.Scale * elementary.Pow(scale, -1/of.Shape), Min: of.Min}, 0
	})
	addTime(func(of array.WeibullTime) Time {
		return Weibull{Shape: of.Shape, Scale: of.Scale, Min: of.Min}
	})
}

// Weibull is Min plus a Weibull length: as a life it has the cumulative hazard
// ((age − Min)/Scale)^Shape beyond Min and none before. Shape and Scale are
// above 0, Min is 0 or more.
type Weibull struct{ Shape, Scale, Min float64 }

// power returns (x/Scale)^Shape. Exp of Log is twice as fast as math.Pow, and as
// good for the moderate exponents here.
func (w Weibull) power(x float64) float64 {
	return elementary.Exp(w.Shape * math.Log(x/w.Scale))
}

func (w Weibull) Cumulative(age float64) float64 {
	if age <= w.Min {
		return 0
	}
	return w.power(age - w.Min)
}

func (w Weibull) Over(age, d float64) float64 {
	x := age - w.Min
	if x <= 0 {
		// age + d − Min, with the digits of a short d that reaches over Min.
		if x += d; x <= 0 {
			return 0
		}
		return w.power(x)
	}
	e := d / x
	if e < 1e-3 {
		// (1+e)^β − 1 as a series: windows of hours at ages of years need no
		// logarithm. The first term left out is below 1e-15 of the sum for
		// shapes up to 5, and below 1e-11 for any that is accepted.
		b := w.Shape
		s := 1 + e*(b-4)/5
		s = 1 + e*(b-3)/4*s
		s = 1 + e*(b-2)/3*s
		s = 1 + e*(b-1)/2*s
		return w.power(x) * b * e * s
	}
	return w.power(x) * math.Expm1(w.Shape*math.Log1p(e))
}

func (w Weibull) Rate(age float64) float64 {
	x := age - w.Min
	if x < 0 {
		return 0
	}
	if x == 0 {
		switch {
		case w.Shape < 1:
			return math.Inf(1)
		case w.Shape > 1:
			return 0
		}
		return 1 / w.Scale
	}
	return w.power(x) * w.Shape / x
}

// MaxRate is at one of the ends, since the hazard only grows or only falls beyond Min.
func (w Weibull) MaxRate(age, d float64) float64 {
	if w.Shape >= 1 {
		return w.Rate(age + d)
	}
	return w.Rate(max(age, w.Min))
}

func (w Weibull) Age(h float64) float64 {
	return w.Min + w.Scale*elementary.Exp(math.Log(h)/w.Shape)
}

// Mean returns Min + Scale·Γ(1 + 1/Shape).
func (w Weibull) Mean() float64 { return w.Min + w.Scale*math.Gamma(1+1/w.Shape) }

// As a length of time:

func (w Weibull) Draw(s *stream.Stream) float64 {
	e := s.Exp()
	switch w.Shape {
	case 1:
	case 2:
		e = math.Sqrt(e)
	default:
		e = elementary.Pow(e, 1/w.Shape)
	}
	return w.Min + w.Scale*e
}

func (w Weibull) Parts() (fixed float64, rest Tiltable) {
	return w.Min, Weibull{Shape: w.Shape, Scale: w.Scale}
}

// LogMoment: E[x^r] of the part above Min is Scale^r·Γ(1 + r/Shape).
func (w Weibull) LogMoment(r int) float64 {
	g, _ := math.Lgamma(1 + float64(r)/w.Shape)
	return float64(r)*math.Log(w.Scale) + g
}

// DrawTilted: with x = Scale·g^(1/Shape), x^r f(x) makes g a Gamma(1 + r/Shape).
func (w Weibull) DrawTilted(s *stream.Stream, r int) float64 {
	return w.Scale * elementary.Pow(s.Gamma(1+float64(r)/w.Shape), 1/w.Shape)
}

// MeanWithin integrates the survival up to d, an incomplete gamma function.
func (w Weibull) MeanWithin(d float64) float64 {
	if d <= w.Min {
		return d
	}
	k := 1 / w.Shape
	share, _ := elementary.GammaInc(k, w.power(d-w.Min))
	return w.Min + w.Scale*math.Gamma(1+k)*share
}

// Constant returns the rate of a life of shape 1 from the start.
func (w Weibull) Constant() (Constant, bool) {
	return Constant{1 / w.Scale}, w.Shape == 1 && w.Min == 0
}

// Exponential returns the law of a length of shape 1 without a minimum.
func (w Weibull) Exponential() (Exponential, bool) {
	return Exponential(w.Scale), w.Shape == 1 && w.Min == 0
}
