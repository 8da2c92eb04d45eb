package law

import (
	"math"
	"reflect"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/sim/stream"
)

func init() {
	addLife(func(of array.FittedWeibull, scale float64) (Life, float64) {
		return lifeLaws[reflect.TypeFor[array.WeibullLife]()](array.WeibullLife{Shape: of.Shape, Scale: of.Scale}, scale)
	})
}

// OfFitted returns the uncertain law of a fitted life, its hazard multiplied by
// scale; nil for any other life, and for one whose fit is without error.
func OfFitted(l array.Life, scale float64) *Fitted {
	f, ok := l.(array.FittedWeibull)
	if !ok || f.ShapeError == 0 && f.ScaleError == 0 {
		return nil
	}
	return &Fitted{Weibull{Shape: f.Shape, Scale: f.Scale}, scale, f.ShapeError, f.ScaleError, f.Correlation}
}

// Fitted is a Weibull life with parameters that are uncertain: log Shape and
// log Scale are jointly normal about those of Centre, with these standard
// errors and their correlation.
type Fitted struct {
	Centre                 Weibull
	Multiplier             float64 // of the hazard, above 0
	ShapeError, ScaleError float64
	Correlation            float64
}

// At returns the life at u and v standard errors along two directions that are
// independent: u moves the scale, and the shape with it as far as they go
// together; v moves what is left of the shape.
func (f Fitted) At(u, v float64) Weibull {
	w := f.Centre
	w.Scale *= elementary.Exp(f.ScaleError * u)
	w.Shape *= elementary.Exp(f.ShapeError * (f.Correlation*u + math.Sqrt(1-f.Correlation*f.Correlation)*v))
	if f.Multiplier != 1 {
		w.Scale *= elementary.Pow(f.Multiplier, -1/w.Shape)
	}
	return w
}

// Draw draws the parameters.
func (f Fitted) Draw(s *stream.Stream) Weibull { return f.At(s.Norm(), s.Norm()) }

// DrawTilted draws the parameters from a mixture that favours lives with high hazards,
// with the weight that restores their law: the share keep comes from that law, the rest
// from the one tilted towards the rth power of the cumulative hazard by the age given. To
// first order the hazard's logarithm is linear in the two standard normal variates, and a
// normal law that is tilted by an exponential is moved, no more.
func (f Fitted) DrawTilted(s *stream.Stream, age, r, keep float64) (life Weibull, weight float64) {
	slope := func(u, v float64) float64 {
		above, below := f.At(u, v), f.At(-u, -v)
		return r * math.Log(above.Cumulative(age)/below.Cumulative(age)) / (2 * (u + v))
	}
	du, dv := slope(0.5, 0), slope(0, 0.5)
	tilted := s.Float64() >= keep
	u, v := s.Norm(), s.Norm()
	if tilted {
		u, v = u+du, v+dv
	}
	ratio := elementary.Exp(du*u + dv*v - (du*du+dv*dv)/2)
	return f.At(u, v), 1 / (keep + (1-keep)*ratio)
}
