package simtest

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// OneGroup is one group of drives that are restored by a law, and nothing else.
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

var (
	HalfMillionHours = law.Constant{PerHour: 1.0 / 500000}
	Wearing          = law.Weibull{Shape: 1.12, Scale: 461386}
	HeavyTailed      = law.Lognormal{Mu: math.Log(24), Sigma: 1.08}
)
