package fit

import (
	"math"

	"arrayodds/array/unit"
	"arrayodds/sim/estimate"

	"gonum.org/v1/gonum/stat/distuv"
)

// daysPerYear turns drive-days into drive-years.
const daysPerYear = unit.HoursPerYear / 24

// jeffreys is what the Jeffreys prior of a Poisson rate adds to the failures.
const jeffreys = 0.5

// Rate returns the annual rate of so many failures (0 or more) in so many drive-days
// (above 0), with its 95 % Jeffreys interval. Without a failure the low end is 0.
func Rate(failures, driveDays float64) estimate.Estimate {
	years := driveDays / daysPerYear
	g := posterior(failures, driveDays, jeffreys)
	e := estimate.Estimate{
		Value:         failures / years,
		High:          g.Quantile(0.975),
		RelativeError: 1 / math.Sqrt(failures+jeffreys),
	}
	if failures > 0 {
		e.Low = g.Quantile(0.025)
	}
	return e
}

// posterior returns the law of a rate, per drive-year, after so many failures. The
// prior is as good as so many failures in no time: ½ for Jeffreys', 1 for a flat one.
func posterior(failures, driveDays, prior float64) distuv.Gamma {
	return distuv.Gamma{Alpha: failures + prior, Beta: driveDays / daysPerYear}
}
