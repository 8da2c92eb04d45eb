package simtest

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/exact"
)

// Chained is a choice of which the Markov chain has the exact loss chance:
// constant rate, one exponential length from failure to restored, 5 years.
type Chained struct {
	Level   array.Level
	Drives  int
	AFR     float64 // failures per drive-year
	Restore float64 // mean hours from failure to restored
}

// NewChained returns such a choice, afr in failures per drive-year and restore in
// hours.
func NewChained(level array.Level, drives int, afr, restore float64) Chained {
	return Chained{level, drives, afr, restore}
}

// Choice returns it with a site that has nothing else.
func (c Chained) Choice() (array.Site, array.Choice) {
	site := array.Site{ServiceLife: 5 * unit.HoursPerYear, Hazards: array.Hazards{DegradedMultiplier: 1}}
	return site, array.Choice{
		Label: fmt.Sprint(c.Level, c.Drives),
		Drive: array.Drive{
			Capacity: 12e12, Life: array.ConstantRate{AFR: c.AFR}, HazardMultiplier: 1, Transfer: 200e6,
			Price: math.NaN(), Power: math.NaN(),
		},
		Layout: array.Layout{Level: c.Level}, Drives: c.Drives, Groups: 1,
		Care: array.Care{
			Notice: array.Fixed{}, Response: array.Fixed{}, Restock: array.Fixed{},
			RebuildShare: 1, RebuildFloor: 20e6, Restore: array.Exponential{Mean: c.Restore},
		},
	}
}

// Exact returns its loss chance by the chain.
func (c Chained) Exact() float64 {
	tolerance := map[array.Level]int{array.RAID0: 0, array.RAID5: 1, array.RAID6: 2, array.TripleParity: 3}[c.Level]
	return exact.Chain{
		Drives: c.Drives, Tolerance: tolerance, FailurePerHour: c.AFR / unit.HoursPerYear, RestorePerHour: 1 / c.Restore,
	}.LossBy(5 * unit.HoursPerYear)
}
