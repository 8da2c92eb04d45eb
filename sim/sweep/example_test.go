package sweep_test

import (
	"context"
	"fmt"
	"log"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/figure"
	"arrayodds/sim/sweep"
)

// answered returns eight drives of 12 TB in RAID 6, of which a failed one is answered
// after so many hours on average.
func answered(hours float64) sweep.Point {
	return sweep.Point{
		Site: array.Site{ServiceLife: 5 * unit.HoursPerYear, Hazards: array.Hazards{DegradedMultiplier: 1}},
		Choice: array.Choice{
			Label:  "eight drives",
			Drive:  array.Drive{Capacity: 12e12, Life: array.ConstantRate{AFR: 0.03}, HazardMultiplier: 1, Transfer: 200e6},
			Layout: array.Layout{Level: array.RAID6}, Drives: 8, Groups: 1,
			Care: array.Care{
				Notice: array.Fixed{Hours: 1}, Response: array.Exponential{Mean: hours}, Restock: array.Fixed{},
				RebuildShare: 0.5, RebuildFloor: 20e6,
			},
		},
	}
}

// Points that are simulated together share their random numbers. So the ratio of two is
// known better than either.
func ExampleRun() {
	points := []sweep.Point{answered(24), answered(72), answered(168)}
	series, err := sweep.Run(context.Background(), points, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("24 h:", figure.Odds(series.Result(0).LossChance))
	for i, hours := range []int{72, 168} {
		times := series.Ratio(i+1, series, 0).Estimate
		fmt.Printf("%d h: %s times as likely (%s)\n", hours, figure.Ratio(times), figure.RatioInterval(times))
	}
	// Output:
	// 24 h: 1 in 700 000
	// 72 h: 2.83 times as likely (2.760 to 2.905)
	// 168 h: 9.3 times as likely (9.01 to 9.56)
}

// The mean response at which a loss within five years has a chance of 1 in 100 000.
func ExampleFindBreakEven() {
	at := func(hours float64) (sweep.Point, error) { return answered(hours), nil }
	found, err := sweep.FindBreakEven(context.Background(), at, 4, 400, true, sweep.Goal{Chance: 1e-5}, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f h (%.0f to %.0f h)\n", found.Value, found.Low, found.High)
	// Output:
	// 139 h (137 to 142 h)
}
