package law

import (
	"math"
	"testing"

	"arrayodds/array"
)

// What package array expects of a law is its cumulative hazard here, at the mean where the
// rate is uncertain; and a multiplied law is one whose hazard is multiplied.
func TestExpectedIsTheHazard(t *testing.T) {
	weibull := array.WeibullLife{Shape: 1.3, Scale: 250_000, Min: 900}
	for _, l := range []array.Life{
		array.ConstantRate{AFR: 0.017}, weibull, array.RateByYear{AFR: []float64{0.03, 0, 0.02}},
		array.FieldRecord{Failures: 3, DriveDays: 90_000},
		array.FittedWeibull{Shape: 0.8, Scale: 400_000, ShapeError: 0.1},
		array.UpdatedLife{Of: weibull, Multiplier: array.Gamma{Shape: 9, Rate: 7}},
		array.UpdatedLife{Of: array.ConstantRate{AFR: 0.01}, Multiplier: array.Gamma{Shape: 9, Rate: 7}},
	} {
		life, uncertain, err := OfLife(l, 1)
		if err != nil {
			t.Fatal(err)
		}
		mean := 1.0
		if uncertain > 0 {
			mean = uncertain
		}
		for _, at := range [][2]float64{{0, 500}, {0, 9000}, {700, 30_000}, {20_000, 90_000}} {
			want := mean * life.Over(at[0], at[1]-at[0])
			if got := l.Expected(at[0], at[1]); math.Abs(got-want) > 1e-12*want {
				t.Errorf("%T from %v to %v: %v, want %v", l, at[0], at[1], got, want)
			}
			times, ok := Times(life, 2.5)
			if got := times.Over(at[0], at[1]-at[0]); !ok || math.Abs(got-2.5*life.Over(at[0], at[1]-at[0])) > 1e-12*got {
				t.Errorf("%T times 2.5: %v", l, got)
			}
		}
	}
	type unknown struct{ array.ConstantRate }
	if _, _, err := OfLife(array.UpdatedLife{Of: unknown{}, Multiplier: array.Gamma{Shape: 1, Rate: 1}}, 1); err == nil {
		t.Error("a law that is not known is one")
	}
}
