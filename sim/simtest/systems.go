package simtest

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// OneGroup returns one group of drives that are restored by a law, and nothing else.
func OneGroup(drives, tolerance int, life law.Life, restore law.Time, horizon float64) *model.System {
	s := &model.System{
		Horizon: horizon, Sets: 1, GroupsPerSet: 1, Drives: drives, Tolerance: tolerance,
		Life: life, Repair: model.Repair{Restore: restore},
	}
	for range tolerance + 1 {
		s.Degraded = append(s.Degraded, 1)
	}
	return s
}

// Laws that published figures and benchmarks have in common, in hours.
var (
	// HalfMillionHours is a constant rate with a mean life of 500 000 h.
	HalfMillionHours = law.Constant{PerHour: 1.0 / 500000}
	// Wearing is the life law of Elerath and Pecht, DSN 2007.
	Wearing = law.Weibull{Shape: 1.12, Scale: 461386}
	// HeavyTailed is a restore that half of the time takes 24 h at most, and nine times
	// in ten 96 h.
	HeavyTailed = law.Lognormal{Mu: math.Log(24), Sigma: 1.08}
)
