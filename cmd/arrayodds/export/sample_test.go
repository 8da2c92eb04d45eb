package export

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// sample returns a report of two choices with figures that can be told apart: the
// first meets the demand and has no price, the second falls short.
func sample() study.Comparison {
	terminal := array.Site{
		Name:        "Heron's <Lock> & Weir",
		ServiceLife: 5 * unit.HoursPerYear,
		Cameras:     []array.Cameras{{Label: "Lock", Count: 4, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 720}},
	}
	exact := 4.5e-15
	first := sim.Result{
		LossChance:          estimate.Estimate{Value: 4.7e-15, Low: 4.5e-15, High: 4.9e-15, RelativeError: 0.02},
		LossChanceRetention: about(1e-16),
		AnyLossChance:       about(2e-4),
		LossCurve: []sim.CurvePoint{
			{Years: 1, Estimate: about(1e-15)}, {Years: 5, Estimate: about(4.7e-15)},
		},
		MissingClip:       about(0.1 + 0.2), // 0.30000000000000004
		MissingByCause:    sim.MissingByCause{Drives: about(1e-17), Unreadable: about(2e-9), Recorder: estimate.Estimate{Value: 0.3, Low: 0.3, High: 0.3}},
		MissingByRecorder: sim.MissingByRecorder{Power: estimate.Exact(0.1), Mains: estimate.Exact(0.15), Swaps: about(0.05)},
		LossShares: []sim.LossShare{
			{Cause: model.Waiting, Estimate: about(0.25)}, {Cause: model.Rebuilding, Estimate: about(0.125)},
			{Cause: model.CommonCause, Estimate: about(0.625)}, {Cause: model.Unreadable}, {Cause: model.SparesOut}, {Cause: model.FirstFailure},
		},
		LossEvents:              about(4.8e-15),
		Incidents:               about(3e-4),
		UnreadableStripes:       about(6e-4),
		CameraDaysLostPerYear:   about(0.01),
		CameraDaysPerLossHalf:   about(118),
		CameraDaysPerLoss95:     about(120),
		UnprotectedHoursPerYear: about(7.5),
		RebuildsPerYear:         about(0.12),
		DrivesReplaced:          about(0.6),
		DrivesReplaced95:        estimate.Estimate{Value: 2, Low: 2, High: 2},
		Exact:                   &exact,
		HasCameras:              true,
		Trials:                  123456,
		StoppedBy:               engine.ByAccuracy,
	}
	second := first
	second.Exact, second.StoppedBy, second.LossShares = nil, engine.ByBudget, nil // as where no loss was seen
	second.Warnings = []string{"One trial carries half of the sum."}
	return study.Comparison{
		Site: terminal, Seed: math.MaxUint64, Accuracy: 0.05,
		Outcomes: []study.Outcome{
			{
				Choice: array.Choice{Label: `=HYPERLINK("http://example.com")`, Drive: array.Drive{Label: "12 TB"}, Layout: array.Layout{Level: array.RAID6}, Drives: 8, Groups: 1},
				Sizing: array.Sizing{Shape: array.Shape{Sets: 1, GroupsPerSet: 1, DrivesInGroup: 8, Tolerance: 2, DataInGroup: 6}, Usable: 72e12, Meets: true, Retention: 24 * 41.2, CameraDays: 4 * 30, Purchase: math.NaN(), Watts: 56, RebuildRun: 42.3},
				Result: first,
				Doubt: &study.ChoiceDoubt{LossInAll: about(9e-15), MissingInAll: about(0.31), Low: 1e-15, Median: 5e-15, High: 3e-14,
					Moves: []study.Move{{Input: 0, Factor: 0.05}}, GoalMet: 1, MissingGoalMet: 0.25},
			},
			{
				Choice: array.Choice{Label: "two, \"quoted\"\nlines", Drive: array.Drive{Label: "-4 TB"}, Layout: array.Layout{Level: array.JBOD}, Drives: 1, Groups: 1, HotSpares: 1},
				Sizing: array.Sizing{Shape: array.Shape{Sets: 1, GroupsPerSet: 1, DrivesInGroup: 1, DataInGroup: 1}, Usable: 4e12, Retention: 24 * 23.125, CameraDays: 4 * 23.125, Purchase: 2690, Watts: math.NaN()},
				Result: second,
				Doubt:  &study.ChoiceDoubt{LossInAll: about(9e-15), MissingInAll: about(0.31), Low: 1e-15, Median: 5e-15, High: 3e-14, GoalMet: math.NaN(), MissingGoalMet: math.NaN()},
			},
		},
		Doubt: &study.Doubt{
			Settings: 64,
			Inputs:   []study.DoubtfulInput{{Path: "drives.12 TB.life.mtbf", Called: "mean time between failures of the 12 TB drives", Low: "67 700 h", Likely: "1000000 h", High: "1000000 h", Range: "a guess"}},
			Safer:    [][]float64{{math.NaN(), 0.75}, {0.25, math.NaN()}},
			LeftOut: []study.LeftOut{{Key: "stop", Path: "choices.*.care.unreadable", Setting: "stop", Says: "a rebuild that stops", Matters: true,
				Chance: []estimate.Estimate{about(1e-10), estimate.None()}, Factor: []estimate.Estimate{about(21276), estimate.None()}}},
		},
		Assumptions: []site.Assumption{{Path: "care.notice", Text: "=1 h", Default: true}, {Path: "service_life", Text: "5 y"}},
	}
}

// about returns an estimate known to 5 %.
func about(x float64) estimate.Estimate {
	return estimate.Estimate{Value: x, Low: 0.95 * x, High: 1.05 * x, RelativeError: 0.0255}
}

// withoutCameras returns the same at a site that names none.
func withoutCameras() study.Comparison {
	r := sample()
	r.Site.Cameras = nil
	for i := range r.Outcomes {
		r.Outcomes[i].Sizing.Meets = true
		r.Outcomes[i].Sizing.Retention = math.NaN()
		r.Outcomes[i].Result.HasCameras = false
	}
	return r
}
