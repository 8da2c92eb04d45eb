package law

import (
	"math"

	"arrayodds/array"
	"arrayodds/sim/stream"
)

func init() { addTime(func(of array.Exponential) Time { return Exponential(of.Mean) }) }

// Exponential is a length without memory, of that mean in hours, above 0.
type Exponential float64

func (e Exponential) Draw(s *stream.Stream) float64 { return float64(e) * s.Exp() }
func (e Exponential) Mean() float64                 { return float64(e) }
func (e Exponential) MeanWithin(d float64) float64 {
	return -float64(e) * math.Expm1(-d/float64(e))
}
func (e Exponential) Parts() (float64, Tiltable) { return 0, e }

// LogMoment: E[x^r] = r!·mean^r.
func (e Exponential) LogMoment(r int) float64 {
	g, _ := math.Lgamma(float64(r + 1))
	return g + float64(r)*math.Log(float64(e))
}

// DrawTilted returns a Gamma(r + 1), for the few r in use as a sum of r + 1
// exponentials.
func (e Exponential) DrawTilted(s *stream.Stream, r int) float64 {
	if r > 8 {
		return float64(e) * s.Gamma(float64(r+1))
	}
	sum := s.Exp()
	for range r {
		sum += s.Exp()
	}
	return float64(e) * sum
}

// Exponential returns the law itself.
func (e Exponential) Exponential() (Exponential, bool) { return e, true }
