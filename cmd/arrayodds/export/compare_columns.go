package export

import (
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// outcomeColumns returns the columns of the choices. Those that rest on cameras are
// left out at a site without them; what rests on prices or powers is an empty cell
// where they are not given.
func outcomeColumns(site array.Site) columns[study.Outcome] {
	var all columns[study.Outcome]
	result := func(name, title string, f cellFormat, of func(sim.Result) estimate.Estimate) {
		all.addEstimate(name, title, f, func(o study.Outcome) estimate.Estimate { return of(o.Result) })
	}
	all.add("choice", "Choice", wideWords, func(o study.Outcome) any { return o.Choice.Label })
	all.add("layout", "Layout", words, func(o study.Outcome) any { return o.Choice.Layout.String() })
	all.add("drive", "Drive", wideWords, func(o study.Outcome) any { return o.Choice.Drive.Label })
	all.add("drives", "Drives, hot spares not counted", whole, func(o study.Outcome) any { return o.Choice.Drives })
	all.add("groups", "Groups", whole, func(o study.Outcome) any { return o.Choice.Groups })
	all.add("hot_spares", "Hot spares", whole, func(o study.Outcome) any { return o.Choice.HotSpares })
	all.add("usable_TB", "Usable (TB)", tenths, func(o study.Outcome) any { return o.Sizing.Usable / array.TB })
	cameras := len(site.Cameras) > 0
	if cameras {
		all.add("meets_demand", "Meets the demand", words, func(o study.Outcome) any { return o.Sizing.Meets })
		all.add("retention_days", "Retention reached (days)", tenths, func(o study.Outcome) any { return o.Sizing.Retention / 24 })
	}
	if site.Estimated() {
		all.add("bitrate_is", "Bit rate", words, func(study.Outcome) any { return "estimated" })
		all.add("meets_demand_at_low_bitrate", "Meets the demand at the low bit rate", words, func(o study.Outcome) any { return o.Sizing.AtLow.Meets })
		all.add("meets_demand_at_high_bitrate", "Meets the demand at the high bit rate", words, func(o study.Outcome) any { return o.Sizing.AtHigh.Meets })
		all.add("retention_days_at_low_bitrate", "Retention reached at the low bit rate (days)", tenths, func(o study.Outcome) any { return o.Sizing.AtLow.Retention / 24 })
		all.add("retention_days_at_high_bitrate", "Retention reached at the high bit rate (days)", tenths, func(o study.Outcome) any { return o.Sizing.AtHigh.Retention / 24 })
	}
	all.addEstimate("loss_in_all", "Chance of losing a group, over all that is uncertain", chance, func(o study.Outcome) estimate.Estimate { return inAll(o).LossInAll })
	all.add("doubt_low", "The same, 5 % of what the inputs may be", chance, func(o study.Outcome) any { return inAll(o).Low })
	all.add("doubt_high", "The same, 95 % of what the inputs may be", chance, func(o study.Outcome) any { return inAll(o).High })
	result("loss_chance", "Chance of losing a group within the service life", chance, func(r sim.Result) estimate.Estimate { return r.LossChance })
	all.add("loss_chance_record_low", "Loss chance, low end left open by the record", chance, func(o study.Outcome) any { return recordInterval(o).Low })
	all.add("loss_chance_record_high", "Loss chance, high end left open by the record", chance, func(o study.Outcome) any { return recordInterval(o).High })
	for c := range model.Causes {
		result("loss_share_"+shareKeys[c], "Share of the loss chance: "+c.String(), chance, func(r sim.Result) estimate.Estimate { return shareOf(r, c) })
	}
	result("any_loss_chance", "Chance of any incident within the service life", chance, func(r sim.Result) estimate.Estimate { return r.AnyLossChance })
	if cameras {
		all.addEstimate("missing_clip_in_all", "Chance that a clip is missing, over all that is uncertain", chance, func(o study.Outcome) estimate.Estimate { return inAll(o).MissingInAll })
		result("loss_chance_retention", "Chance of losing a group within one retention period", chance, func(r sim.Result) estimate.Estimate { return r.LossChanceRetention })
		result("missing_clip_chance", "Chance that a clip asked for is missing", chance, func(r sim.Result) estimate.Estimate { return r.MissingClip })
		result("missing_by_drives", "Missing because of drives", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Drives })
		result("missing_by_unreadable", "Missing because of unreadable sectors", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Unreadable })
		result("missing_by_recorder", "Missing because of the recorder", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Recorder })
		result("missing_by_power", "Missing because of the recorder: power supply", chance, func(r sim.Result) estimate.Estimate { return r.MissingByRecorder.Power })
		result("missing_by_system_disk", "Missing because of the recorder: system disk", chance, func(r sim.Result) estimate.Estimate { return r.MissingByRecorder.SystemDisk })
		result("missing_by_mains", "Missing because of the recorder: mains", chance, func(r sim.Result) estimate.Estimate { return r.MissingByRecorder.Mains })
		result("missing_by_swaps", "Missing because of the recorder: drives replaced", chance, func(r sim.Result) estimate.Estimate { return r.MissingByRecorder.Swaps })
		result("missing_by_shortfall", "Missing because the drives hold too little", chance, func(r sim.Result) estimate.Estimate { return r.MissingByCause.Shortfall })
		result("camera_days_lost_per_year", "Footage lost (camera-days a year)", chance, func(r sim.Result) estimate.Estimate { return r.CameraDaysLostPerYear })
		result("camera_days_per_loss_median", "Footage that one loss takes, median (camera-days)", tenths, func(r sim.Result) estimate.Estimate { return r.CameraDaysPerLossHalf })
		result("camera_days_per_loss_95", "Footage that one loss takes, 95 % of losses (camera-days)", tenths, func(r sim.Result) estimate.Estimate { return r.CameraDaysPerLoss95 })
	}
	if site.Estimated() {
		at := func(name, title string, of func(sim.Result) *sim.AtBitRate) {
			result("loss_chance_at_"+name, "Chance of losing a group at the "+title, chance, func(r sim.Result) estimate.Estimate { return atBitRate(of(r)).LossChance })
			result("missing_clip_chance_at_"+name, "Chance that a clip is missing at the "+title, chance, func(r sim.Result) estimate.Estimate { return atBitRate(of(r)).MissingClip })
		}
		at("low_bitrate", "low bit rate", func(r sim.Result) *sim.AtBitRate { return r.AtLowBitRate })
		at("high_bitrate", "high bit rate", func(r sim.Result) *sim.AtBitRate { return r.AtHighBitRate })
	}
	result("loss_events_mean", "Group losses over the service life, mean", chance, func(r sim.Result) estimate.Estimate { return r.LossEvents })
	result("incidents_mean", "Incidents over the service life, mean", chance, func(r sim.Result) estimate.Estimate { return r.Incidents })
	result("unreadable_stripes_mean", "Unreadable stripes over the service life, mean", chance, func(r sim.Result) estimate.Estimate { return r.UnreadableStripes })
	result("unprotected_hours_per_year", "Without redundancy (hours a year)", hundred, func(r sim.Result) estimate.Estimate { return r.UnprotectedHoursPerYear })
	result("rebuilds_per_year", "Rebuilds a year", hundred, func(r sim.Result) estimate.Estimate { return r.RebuildsPerYear })
	result("drives_replaced_mean", "Drives failed over the service life, mean", hundred, func(r sim.Result) estimate.Estimate { return r.DrivesReplaced })
	result("drives_replaced_95", "Drives failed over the service life, 95 % of lives", whole, func(r sim.Result) estimate.Estimate { return r.DrivesReplaced95 })
	all.add("rebuild_hours", "One rebuild (hours)", tenths, func(o study.Outcome) any { return o.Sizing.RebuildRun })
	in := " (" + figure.CurrencyName(site.Currency) + ")"
	all.add("currency", "Currency", words, func(study.Outcome) any { return site.Currency })
	all.add("purchase_cost", "Purchase"+in, whole, func(o study.Outcome) any { return o.Sizing.Purchase })
	all.add("cost_per_usable_TB", "Purchase per usable TB"+in, hundred, func(o study.Outcome) any { return o.Sizing.PerUsableTB() })
	if cameras {
		all.add("cost_per_camera_day", "Purchase per camera-day kept"+in, hundred, func(o study.Outcome) any { return o.Sizing.PerCameraDay() })
	}
	all.addEstimate("replaced_cost", "Drives replaced over the service life, mean"+in, whole, func(o study.Outcome) estimate.Estimate { return o.Result.DrivesReplaced.Times(o.Choice.Drive.Price) })
	all.addEstimate("cost_of_life", "Cost of the service life"+in, whole, func(o study.Outcome) estimate.Estimate { return o.CostOfLife(site).Total() })
	all.add("power_W", "Power (W)", whole, func(o study.Outcome) any { return o.Sizing.Watts })
	all.add("energy_kWh_per_year", "Energy (kWh a year)", whole, func(o study.Outcome) any { return o.Sizing.EnergyPerYear() })
	all.add("exact_loss_chance", "Loss chance by the exact chain", chance, func(o study.Outcome) any { return given(o.Result.Exact) })
	all.add("textbook_loss_chance", "Loss chance by the textbook formula", chance, func(o study.Outcome) any { return given(o.Result.Textbook) })
	all.add("trials", "Trials", whole, func(o study.Outcome) any { return o.Result.Trials })
	all.add("stopped_by", "Run ended by", words, func(o study.Outcome) any { return string(o.Result.StoppedBy) })
	all.add("warnings", "Warnings", longWords, func(o study.Outcome) any { return strings.Join(o.Result.Warnings, " ") })
	return all
}

// shareOf returns the share of the loss chance that a cause makes, not known where no
// loss was seen.
func shareOf(r sim.Result, c model.Cause) estimate.Estimate {
	for _, s := range r.LossShares {
		if s.Cause == c {
			return s.Estimate
		}
	}
	return estimate.None()
}

// recordInterval returns the interval of the loss chance that the record leaves
// open, NaN if there is no record.
func recordInterval(o study.Outcome) sim.Span {
	if s := o.Result.Record; s != nil {
		return *s
	}
	return sim.Span{Low: math.NaN(), High: math.NaN()}
}

// atBitRate returns the figures at another bit rate, not known if it was not run.
func atBitRate(a *sim.AtBitRate) sim.AtBitRate {
	if a != nil {
		return *a
	}
	return sim.AtBitRate{LossChance: estimate.None(), MissingClip: estimate.None()}
}
