package law

// Constant is a life without memory: PerHour failures per drive-hour, 0 or
// more.
type Constant struct{ PerHour float64 }

func (c Constant) Cumulative(age float64) float64 { return c.PerHour * age }
func (c Constant) Over(_, d float64) float64      { return c.PerHour * d }
func (c Constant) Rate(float64) float64           { return c.PerHour }
func (c Constant) Mean() float64                  { return 1 / c.PerHour }

func (c Constant) Age(h float64) float64 {
	if h == 0 {
		return 0 // at a rate of 0 too
	}
	return h / c.PerHour
}
