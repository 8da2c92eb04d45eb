package chartstest

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// Sample returns an invented comparison that has everything a page must show: losses
// from 1e-9 to 0.6, choices that fall short, a warning, a JBOD, a choice
// without any loss, both policies, prices.
func Sample() study.Comparison {
	ferry := array.Site{
		Name:        "Saltmarsh ferry terminal",
		ServiceLife: 5 * unit.HoursPerYear,
		Currency:    "EUR",
		EnergyPrice: 0.25,
		Cameras: []array.Cameras{
			{Label: "Ramps and quay", Count: 24, BitRate: 6e6, HoursPerDay: 24, Activity: 1, Retention: 30 * 24},
			{Label: "Halls", Count: 14, BitRate: 4e6, HoursPerDay: 24, Activity: 0.6, Retention: 14 * 24},
			{Label: "Tills", Count: 6, BitRate: 3e6, HoursPerDay: 16, Activity: 1, Retention: 60 * 24},
		},
	}
	drive := func(label string, tb, price, watts float64) array.Drive {
		return array.Drive{Label: label, Capacity: tb * array.TB, Life: array.ConstantRate{AFR: 0.015}, HazardMultiplier: 1,
			ReadErrorBits: 1e15, Transfer: 210e6, Price: price, Power: watts}
	}
	small, middle, large := drive("8 TB", 8, 190, 6), drive("12 TB", 12, 290, 7), drive("18 TB", 18, 410, 7.5)
	care := array.Care{Notice: array.Fixed{Hours: 1}, Response: array.OpenHours{Within: 8}, Restock: array.Fixed{Hours: 72},
		RebuildShare: 0.5, RebuildFloor: 20e6}
	stop := care
	stop.Stop = true
	recorder := &array.Recorder{Price: 2400, Bays: 12, IdlePower: 90}

	r := study.Comparison{Site: ferry, Seed: 1, Accuracy: 0.05}
	add := func(label string, d array.Drive, level array.Level, drives, groups, spares int, care array.Care, loss, half float64, change func(*sim.Result)) {
		c := array.Choice{Label: label, Drive: d, Layout: array.Layout{Level: level}, Drives: drives, Groups: groups, HotSpares: spares, Care: care, Recorder: recorder}
		z, err := ferry.Size(c)
		if err != nil {
			panic(err)
		}
		x := result(ferry, c, z, loss, half)
		if change != nil {
			change(&x)
		}
		r.Outcomes = append(r.Outcomes, study.Outcome{Choice: c, Sizing: z, Result: x})
	}
	add("9 x 8 TB, no redundancy", small, array.JBOD, 9, 1, 0, care, 0.49, 0.008, nil)
	add("6 x 8 TB, striped", small, array.RAID0, 6, 1, 0, care, 0.36, 0.008, nil)
	add("8 x 12 TB, single parity", middle, array.RAID5, 8, 1, 0, care, 1.31e-3, 5.9e-5, nil)
	add("8 x 12 TB, single parity, stops", middle, array.RAID5, 8, 1, 0, stop, 0.171, 0.006, nil)
	add("8 x 12 TB, double parity", middle, array.RAID6, 8, 1, 0, care, 4.2e-7, 2.0e-8, nil)
	add("8 x 12 TB, double parity and a hot spare", middle, array.RAID6, 8, 1, 1, care, 9.5e-8, 3.6e-8, func(x *sim.Result) {
		x.StoppedBy = engine.ByBudget
		x.Warnings = []string{"three trials carry half of the loss chance: the interval may be too narrow"}
	})
	add("8 x 18 TB, mirrored pairs", large, array.RAID10, 8, 1, 0, care, 5.6e-4, 2.7e-5, nil)
	add("10 x 8 TB, triple parity", small, array.TripleParity, 10, 1, 0, care, 1.3e-9, 6e-11, nil)
	add("4 x 18 TB, four copies", large, array.RAID1, 4, 1, 0, care, 0, 0, nil)
	r.Assumptions = []site.Assumption{
		{Path: "service_life", Text: "5 y"}, {Path: "cameras.0.count", Text: "24"}, {Path: "cameras.0.bitrate", Text: "6 Mbit/s"},
		{Path: "cameras.0.hours_per_day", Text: "24", Default: true}, {Path: "drives.1.life", Text: `{ afr = "1.5 %" }`}, {Path: "drives.1.batch_variance", Text: "0", Default: true},
		{Path: "care.response", Text: `{ within = "8 h", hours = "Mon-Fri 08:00-17:00" }`}, {Path: "care.restock", Text: "72 h", Default: true},
		{Path: "care.rebuild_share", Text: "0.5", Default: true}, {Path: "run.seed", Text: "1", Default: true},
	}
	return r
}

// result makes figures of a likely size for a loss chance.
func result(site array.Site, c array.Choice, z array.Sizing, loss, half float64) sim.Result {
	est := func(v, rel float64) estimate.Estimate {
		return estimate.Estimate{Value: v, Low: v * (1 - rel), High: v * (1 + rel), RelativeError: rel / 1.96}
	}
	rel := 0.0
	if loss > 0 {
		rel = half / loss
	}
	years := site.ServiceLife / unit.HoursPerYear
	events := -math.Log1p(-loss)
	x := sim.Result{
		LossChance:          est(loss, rel),
		LossChanceRetention: est(events*60/(365*years), rel),
		AnyLossChance:       est(math.Min(0.9, loss+0.17), 0.03),
		LossEvents:          est(events, rel),
		Incidents:           est(events+0.19, 0.03),
		UnreadableStripes:   est(0.18, 0.031),
		HasCameras:          true,
		Trials:              184320, StoppedBy: engine.ByAccuracy, EffectiveSamples: 21034, LargestShare: 0.0004,
		DrivesReplaced:   est(float64(c.Drives)*0.075, 0.011),
		DrivesReplaced95: estimate.Estimate{Value: 2, Low: 2, High: 2},
	}
	if c.Care.Stop {
		x.AnyLossChance, x.Incidents, x.UnreadableStripes = x.LossChance, x.LossEvents, estimate.Estimate{}
	}
	for y := 1.0; y <= years; y++ {
		power := 1.0
		if z.Shape.Tolerance > 1 {
			power = 1.15
		}
		x.LossCurve = append(x.LossCurve, sim.CurvePoint{Years: y, Estimate: est(-math.Expm1(-events*math.Pow(y/years, power)), rel*1.2)})
	}
	x.MissingByCause = sim.MissingByCause{
		Drives:     est(events*0.016, rel*1.3),
		Unreadable: est(2.2e-9, 0.04),
		Recorder:   estimate.Estimate{Value: 2.4e-4, Low: 2.4e-4, High: 2.4e-4},
	}
	if z.Shape.Rebuilds() {
		x.UnprotectedHoursPerYear = est(31.2, 0.014)
		x.RebuildsPerYear = est(float64(c.Drives)*0.0149, 0.011)
		textbook := loss * 0.31
		x.Textbook = &textbook
	} else {
		x.AnyLossChance, x.Incidents, x.UnreadableStripes, x.MissingByCause.Unreadable = x.LossChance, x.LossEvents, estimate.Estimate{}, estimate.Estimate{}
		exact := loss * 1.004
		x.Exact, x.Textbook = &exact, &exact
	}
	if !z.Meets {
		short := 1 - z.Usable/site.Demand().Needed
		x.MissingByCause.Shortfall = estimate.Estimate{Value: short, Low: short, High: short}
	}
	m := x.MissingByCause
	x.MissingClip = est(m.Drives.Value+m.Unreadable.Value+m.Recorder.Value+m.Shortfall.Value, rel/2)
	x.CameraDaysLostPerYear = est(events*900/years, rel*1.2)
	x.CameraDaysPerLossHalf, x.CameraDaysPerLoss95 = est(880, 0.02), est(1010, 0.03)
	return x
}

// Around returns an estimate with an interval of that relative half-width.
func Around(v, half float64) estimate.Estimate {
	return estimate.Estimate{Value: v, Low: v * (1 - half), High: v * (1 + half), RelativeError: half / 1.96}
}
