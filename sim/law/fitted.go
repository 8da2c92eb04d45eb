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
