package export

import (
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// column is one figure of every choice, the same in CSV and in the workbook.
type column struct {
	name  string // heading of the CSV, with its unit
	title string // heading of the workbook, with its unit
	form  string // number format of the workbook; "" for words
	value func(study.Outcome) any
}

// Number formats of the workbook. A chance runs over many decades, so it is
// shown with a power of ten.
const (
	words   = ""
	whole   = "#,##0"
	tenths  = "#,##0.0"
	hundred = "#,##0.00"
	chance  = "0.00E+00"
)

// columns lists what is written of a choice. What rests on cameras is left out
// at a site without them, what rests on prices or powers is an empty cell.
func columns(site array.Site) []column {
	all := []column{
		{"choice", "Choice", words, func(o study.Outcome) any { return o.Choice.Label }},
		{"layout", "Layout", words, func(o study.Outcome) any { return o.Choice.Layout.String() }},
		{"drive", "Drive", words, func(o study.Outcome) any { return o.Choice.Drive.Label }},
		{"drives", "Drives, hot spares not counted", whole, func(o study.Outcome) any { return o.Choice.Drives }},
		{"groups", "Groups", whole, func(o study.Outcome) any { return o.Choice.Groups }},
		{"hot_spares", "Hot spares", whole, func(o study.Outcome) any { return o.Choice.HotSpares }},
		{"usable_TB", "Usable (TB)", tenths, func(o study.Outcome) any { return o.Sizing.Usable / array.TB }},
	}
	cameras := len(site.Cameras) > 0
	if cameras {
		all = append(all,
			column{"meets_demand", "Meets the demand", words, func(o study.Outcome) any { return yes(o.Sizing.Meets) }},
			column{"retention_days", "Retention reached (days)", tenths, func(o study.Outcome) any { return o.Sizing.Retention / 24 }},
		)
	}
	if site.Estimated() {
		all = append(all,
			column{"bitrate_is", "Bit rate", words, func(study.Outcome) any { return "estimated" }},
			column{"meets_demand_at_low_bitrate", "Meets the demand at the low bit rate", words, func(o study.Outcome) any { return yes(o.Sizing.AtLow.Meets) }},
			column{"meets_demand_at_high_bitrate", "Meets the demand at the high bit rate", words, func(o study.Outcome) any { return yes(o.Sizing.AtHigh.Meets) }},
			column{"retention_days_at_low_bitrate", "Retention reached at the low bit rate (days)", tenths, func(o study.Outcome) any { return o.Sizing.AtLow.Retention / 24 }},
			column{"retention_days_at_high_bitrate", "Retention reached at the high bit rate (days)", tenths, func(o study.Outcome) any { return o.Sizing.AtHigh.Retention / 24 }},
		)
	}
	addEstimate := func(name, title, form string, of func(sim.Result) estimate.Estimate) {
		all = append(all,
			column{name, title, form, func(o study.Outcome) any { return of(o.Result).Value }},
			column{name + "_low", title + ", 95 % low", form, func(o study.Outcome) any { return of(o.Result).Low }},
			column{name + "_high", title + ", 95 % high", form, func(o study.Outcome) any { return of(o.Result).High }},
		)
	}
	addEstimate("loss_chance", "Chance of losing a group within the service life", chance, func(r sim.Result) estimate.Estimate { return r.LossChance })
	all = append(all,
		column{"loss_chance_record_low", "Loss chance, low end left open by the record", chance, func(o study.Outcome) any { return recordEnd(o.Result.Record, false) }},
		column{"loss_chance_record_high", "Loss chance, high end left open by the record", chance, func(o study.Outcome) any { return recordEnd(o.Result.Record, true) }},
	)
	addEstimate("any_loss_chance", "Chance of any incident within the service life", chance, func(r sim.Result) estimate.Estimate { return r.AnyLossChance })
	if cameras {
		addEstimate("loss_chance_retention", "Chance of losing a group within one retention period", chance, func(r sim.Result) estimate.Estimate { return r.LossChanceRetention })
		addEstimate("missing_clip_chance", "Chance that a clip asked for is missing", chance, func(r sim.Result) estimate.Estimate { return r.MissingClip })
		addEstimate("missing_by_drives", "Missing because of drives", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Drives })
		addEstimate("missing_by_unreadable", "Missing because of unreadable sectors", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Unreadable })
		addEstimate("missing_by_recorder", "Missing because of the recorder", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Recorder })
		addEstimate("missing_by_shortfall", "Missing because the drives hold too little", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Shortfall })
		addEstimate("camera_days_lost_per_year", "Footage lost (camera-days a year)", chance, func(r sim.Result) estimate.Estimate { return r.CameraDaysLostPerYear })
		addEstimate("camera_days_per_loss_median", "Footage that one loss takes, median (camera-days)", tenths, func(r sim.Result) estimate.Estimate { return r.CameraDaysPerLossHalf })
		addEstimate("camera_days_per_loss_95", "Footage that one loss takes, 95 % of losses (camera-days)", tenths, func(r sim.Result) estimate.Estimate { return r.CameraDaysPerLoss95 })
	}
	if site.Estimated() {
		at := func(name, title string, of func(sim.Result) *sim.AtBitRate) {
			addEstimate("loss_chance_at_"+name, "Chance of losing a group at the "+title, chance, func(r sim.Result) estimate.Estimate { return rateOf(of(r)).LossChance })
			addEstimate("missing_clip_chance_at_"+name, "Chance that a clip is missing at the "+title, chance, func(r sim.Result) estimate.Estimate { return rateOf(of(r)).MissingClip })
		}
		at("low_bitrate", "low bit rate", func(r sim.Result) *sim.AtBitRate { return r.AtLowBitRate })
		at("high_bitrate", "high bit rate", func(r sim.Result) *sim.AtBitRate { return r.AtHighBitRate })
	}
	addEstimate("loss_events_mean", "Group losses over the service life, mean", chance, func(r sim.Result) estimate.Estimate { return r.LossEvents })
	addEstimate("incidents_mean", "Incidents over the service life, mean", chance, func(r sim.Result) estimate.Estimate { return r.Incidents })
	addEstimate("unreadable_stripes_mean", "Unreadable stripes over the service life, mean", chance, func(r sim.Result) estimate.Estimate { return r.UnreadableStripes })
	addEstimate("unprotected_hours_per_year", "Without redundancy (hours a year)", hundred, func(r sim.Result) estimate.Estimate { return r.UnprotectedHoursPerYear })
	addEstimate("rebuilds_per_year", "Rebuilds a year", hundred, func(r sim.Result) estimate.Estimate { return r.RebuildsPerYear })
	addEstimate("drives_replaced_mean", "Drives failed over the service life, mean", hundred, func(r sim.Result) estimate.Estimate { return r.DrivesReplaced })
	addEstimate("drives_replaced_95", "Drives failed over the service life, 95 % of lives", whole, func(r sim.Result) estimate.Estimate { return r.DrivesReplaced95 })
	const replaced = "Drives replaced over the service life, mean (the site's currency)"
	all = append(all,
		column{"rebuild_hours", "One rebuild (hours)", tenths, func(o study.Outcome) any { return o.Sizing.RebuildRun }},
		column{"purchase_cost", "Purchase (the site's currency)", whole, func(o study.Outcome) any { return o.Sizing.Purchase }},
		column{"cost_per_usable_TB", "Purchase per usable TB (the site's currency)", hundred, func(o study.Outcome) any { return o.Sizing.PerUsableTB() }},
	)
	if cameras {
		all = append(all, column{"cost_per_camera_day", "Purchase per camera-day kept (the site's currency)", hundred, func(o study.Outcome) any { return o.Sizing.PerCameraDay() }})
	}
	return append(all,
		column{"replaced_cost", replaced, whole, func(o study.Outcome) any { return o.Result.DrivesReplaced.Value * o.Choice.Drive.Price }},
		column{"replaced_cost_low", replaced + ", 95 % low", whole, func(o study.Outcome) any { return o.Result.DrivesReplaced.Low * o.Choice.Drive.Price }},
		column{"replaced_cost_high", replaced + ", 95 % high", whole, func(o study.Outcome) any { return o.Result.DrivesReplaced.High * o.Choice.Drive.Price }},
		column{"power_W", "Power (W)", whole, func(o study.Outcome) any { return o.Sizing.Watts }},
		column{"energy_kWh_per_year", "Energy (kWh a year)", whole, func(o study.Outcome) any { return o.Sizing.EnergyPerYear() }},
		column{"exact_loss_chance", "Loss chance by the exact chain", chance, func(o study.Outcome) any { return given(o.Result.Exact) }},
		column{"textbook_loss_chance", "Loss chance by the textbook formula", chance, func(o study.Outcome) any { return given(o.Result.Textbook) }},
		column{"trials", "Trials", whole, func(o study.Outcome) any { return o.Result.Trials }},
		column{"stopped_by", "Run ended by", words, func(o study.Outcome) any { return string(o.Result.StoppedBy) }},
		column{"warnings", "Warnings", words, func(o study.Outcome) any { return strings.Join(o.Result.Warnings, " ") }},
	)
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// given is NaN, an empty cell, where there is no such figure.
func given(x *float64) float64 {
	if x == nil {
		return math.NaN()
	}
	return *x
}

// recordEnd is an end of the record's interval, NaN where there is none.
func recordEnd(s *sim.Span, high bool) float64 {
	switch {
	case s == nil:
		return math.NaN()
	case high:
		return s.High
	}
	return s.Low
}

// rateOf is what a run says at another bit rate, all NaN where it was not run.
func rateOf(a *sim.AtBitRate) sim.AtBitRate {
	if a != nil {
		return *a
	}
	unknown := estimate.None()
	return sim.AtBitRate{LossChance: unknown, MissingClip: unknown}
}
