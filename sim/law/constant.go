package law

import (
	"arrayodds/array"
	"arrayodds/array/unit"
)

func init() {
	addLife(func(of array.ConstantRate, scale float64) (Life, float64) {
		return Constant{of.AFR / unit.HoursPerYear * scale}, 0
	})
	// The rate of a record is that at a Gamma variate of 1.
	addLife(func(of array.FieldRecord, scale float64) (Life, float64) {
		return Constant{scale / (of.DriveDays * 24)}, of.Failures + 0.5
	})
}

// Constant is a life without memory: PerHour failures per drive-hour, 0 or
// more.
type Constant struct{ PerHour float64 }

func (c Constant) Cumulative(age float64) float64 { return c.PerHour * age }
func (c Constant) Over(_, d float64) float64      { return c.PerHour * d }
func (c Constant) Rate(float64) float64           { return c.PerHour }
func (c Constant) MaxRate(_, _ float64) float64   { return c.PerHour }
func (c Constant) Mean() float64                  { return 1 / c.PerHour }

func (c Constant) Age(h float64) float64 {
	if h == 0 {
		return 0 // at a rate of 0 too
	}
	return h / c.PerHour
}

// Constant returns the life itself.
func (c Constant) Constant() (Constant, bool) { return c, true }
