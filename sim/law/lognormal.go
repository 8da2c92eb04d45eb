package law

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

func init() { addTime(func(of array.Lognormal) Time { return NewLognormal(of.Median, of.P90) }) }

// Lognormal is a length whose logarithm is normal with mean Mu (of hours) and
// standard deviation Sigma, above 0.
type Lognormal struct{ Mu, Sigma float64 }

// NewLognormal has the median and the 90 % point given, in hours, 0 < median <
// p90.
func NewLognormal(median, p90 float64) Lognormal {
	return Lognormal{math.Log(median), math.Log(p90/median) / distuv.UnitNormal.Quantile(0.9)}
}

func (l Lognormal) Draw(s *stream.Stream) float64 { return elementary.Exp(l.Mu + l.Sigma*s.Norm()) }

// Mean returns exp(Mu + Sigma²/2).
func (l Lognormal) Mean() float64 { return elementary.Exp(l.LogMoment(1)) }

// MeanWithin returns the mean of the draws below d plus d for each above it.
func (l Lognormal) MeanWithin(d float64) float64 {
	if d <= 0 {
		return 0
	}
	z := (math.Log(d) - l.Mu) / l.Sigma
	return l.Mean()*elementary.NormalCDF(z-l.Sigma) + d*elementary.NormalCDF(-z)
}

func (l Lognormal) Parts() (float64, Tiltable) { return 0, l }

// LogMoment: E[x^r] = exp(r·Mu + r²·Sigma²/2).
func (l Lognormal) LogMoment(r int) float64 {
	k := float64(r)
	return k*l.Mu + k*k*l.Sigma*l.Sigma/2
}

// DrawTilted: x^r f(x) is the lognormal with Mu raised by r·Sigma².
func (l Lognormal) DrawTilted(s *stream.Stream, r int) float64 {
	return elementary.Exp(l.Mu + l.Sigma*(float64(r)*l.Sigma+s.Norm()))
}
