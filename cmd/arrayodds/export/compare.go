package export

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// compareJSON writes what compare found as one object. Chances are 0 to 1, low and
// high the 95 % interval, relative_error the standard error ÷ the value.
func compareJSON(w io.Writer, c study.Comparison) error {
	cameras := len(c.Site.Cameras) > 0
	var demand any
	if cameras {
		d := c.Site.Demand()
		demand = object{{"write_bytes_per_second", d.WriteRate}, {"needed_bytes", d.Needed}}
	}
	return writeJSON(w, document(c.Site, c.Seed,
		member{"currency", currency(c.Site)},
		member{"demand", demand},
		member{"choices", list(orEmpty(c.Outcomes), func(o study.Outcome) any { return outcomeObject(o, c.Doubt, c.Site) })},
		member{"safer", safer(c)},
		member{"left_out", leftOut(c)},
	))
}

// currency returns what the sums of a site are in, nil where it does not say.
func currency(s array.Site) any {
	if s.Currency == "" {
		return nil
	}
	return s.Currency
}

// outcomeObject returns the object of one choice of the site. Without cameras what
// rests on them is null.
func outcomeObject(o study.Outcome, doubt *study.Doubt, s array.Site) object {
	r, cameras := o.Result, len(s.Cameras) > 0
	ifCameras := func(value any) any {
		if !cameras {
			return nil
		}
		return value
	}
	var byCause any
	if m := r.MissingByCause; cameras && m.Drives.Known() {
		byCause = object{{"drives", m.Drives}, {"unreadable", m.Unreadable}, {"recorder", m.Recorder}, {"shortfall", m.Shortfall}}
	}
	var byRecorder any
	if m := r.MissingByRecorder; cameras && m.Swaps.Known() {
		byRecorder = object{{"power", m.Power}, {"system_disk", m.SystemDisk}, {"mains", m.Mains}, {"swaps", m.Swaps}}
	}
	head := object{
		{"label", o.Choice.Label},
		{"layout", o.Choice.Layout.String()},
		{"drive", o.Choice.Drive.Label},
		{"drives", o.Choice.Drives},
		{"groups", o.Choice.Groups},
		{"hot_spares", o.Choice.HotSpares},
		{"usable_bytes", o.Sizing.Usable},
		{"meets_demand", ifCameras(o.Sizing.Meets)},
		{"retention_days", ifCameras(known(o.Sizing.Retention / 24))},
	}
	return slices.Concat(head, doubtMembers(o, doubt, cameras), object{
		{"loss_chance", r.LossChance},
		{"loss_chance_retention", ifCameras(r.LossChanceRetention)},
		{"any_loss_chance", r.AnyLossChance},
		{"missing_clip_chance", ifCameras(r.MissingClip)},
		{"loss_events_mean", r.LossEvents},
		{"incidents_mean", r.Incidents},
		{"unreadable_stripes_mean", r.UnreadableStripes},
		{"camera_days_lost_per_year", ifCameras(r.CameraDaysLostPerYear)},
		{"missing_by_cause", byCause},
		{"missing_by_recorder", byRecorder},
		{"loss_shares", lossShares(r)},
		{"loss_curve", list(orEmpty(r.LossCurve), func(p sim.CurvePoint) any {
			return append(object{{"years", p.Years}}, estimateMembers(p.Estimate)...)
		})},
		{"unprotected_hours_per_year", r.UnprotectedHoursPerYear},
		{"rebuilds_per_year", r.RebuildsPerYear},
		{"drives_replaced_mean", r.DrivesReplaced},
		{"drives_replaced_95", known(r.DrivesReplaced95.Value)},
		{"drives_replaced_95_interval", r.DrivesReplaced95},
		{"purchase_cost", known(o.Sizing.Purchase)},
		{"cost_of_life", o.CostOfLife(s).Total()},
		{"exact_loss_chance", given(r.Exact)},
		{"textbook_loss_chance", given(r.Textbook)},
		{"trials", r.Trials},
		{"stopped_by", r.StoppedBy},
		{"warnings", orEmpty(r.Warnings)},
	})
}

// shareKeys are the names under which the causes of a loss are written.
var shareKeys = [model.Causes]string{
	model.Waiting: "waiting", model.Rebuilding: "rebuilding", model.CommonCause: "common_cause",
	model.Unreadable: "unreadable", model.SparesOut: "spares_out", model.FirstFailure: "first_failure",
}

// lossShares returns the object of the shares of the loss chance, nil where no loss was
// seen.
func lossShares(r sim.Result) any {
	if r.LossShares == nil {
		return nil
	}
	var o object
	for _, s := range r.LossShares {
		o = append(o, member{shareKeys[s.Cause], s.Estimate})
	}
	return o
}

// compareCSV writes one row a choice, under headings whose names end in their unit.
func compareCSV(w io.Writer, c study.Comparison) error { return writeCSV(w, choicesSheet(c)) }

// compareXLSX writes the choices, the loss over the years, the assumptions and the
// cautions as a workbook.
func compareXLSX(w io.Writer, c study.Comparison) error {
	return writeXLSX(w, choicesSheet(c), curveSheet(c), assumptionsSheet(c), aboutSheet(c))
}

func choicesSheet(c study.Comparison) sheet {
	return outcomeColumns(c.Site).sheet("Choices", c.Outcomes)
}

// curveSheet has one row for each choice and year.
func curveSheet(c study.Comparison) sheet {
	type year struct {
		choice string
		sim.CurvePoint
	}
	var rows []year
	for _, o := range c.Outcomes {
		for _, p := range o.Result.LossCurve {
			rows = append(rows, year{o.Choice.Label, p})
		}
	}
	var all columns[year]
	all.add("", "Choice", wideWords, func(y year) any { return y.choice })
	all.add("", "Years of service", hundred, func(y year) any { return y.Years })
	all.add("", "Chance of losing a group by then", chance, func(y year) any { return y.Value })
	all.add("", "95 % low", chance, func(y year) any { return y.Low })
	all.add("", "95 % high", chance, func(y year) any { return y.High })
	return all.sheet("Loss over the years", rows)
}

func assumptionsSheet(c study.Comparison) sheet {
	var all columns[site.Assumption]
	all.add("", "Key", wideWords, func(a site.Assumption) any { return a.Path })
	all.add("", "Taken as", longWords, func(a site.Assumption) any { return a.Text })
	all.add("", "Where from", words, func(a site.Assumption) any {
		if a.Default {
			return "default"
		}
		return "site file"
	})
	return all.sheet("Assumptions", c.Assumptions)
}

// aboutSheet says what was simulated, and what a reader must know of it.
func aboutSheet(c study.Comparison) sheet {
	method := "life by life with forced branching"
	if c.Plain {
		method = "life by life, event by event (plain)"
	}
	type line struct{ about, text string }
	rows := []line{
		{"Site", c.Site.Name},
		{"Service life", fmt.Sprintf("%.4g years of %d h", c.Site.ServiceLife/unit.HoursPerYear, unit.HoursPerYear)},
		{"Simulated", method},
		{"Seed", strconv.FormatUint(c.Seed, 10)},
		{"Accuracy asked for", fmt.Sprintf("%.3g %% (half of the 95 %% interval of the loss chance ÷ the loss chance)", 100*c.Accuracy)},
		{"Intervals", "Low and high are the ends of the 95 % interval of the simulation. It says how well the simulation knows its own answer, not how well the assumptions fit the site."},
	}
	for _, text := range study.Cautions(c.Site, c.Choices(), c.Plain) {
		rows = append(rows, line{"Caution", text})
	}
	var all columns[line]
	all.add("", "About this workbook", wideWords, func(l line) any { return l.about })
	all.add("", "", longWords, func(l line) any { return l.text })
	return all.sheet("About", rows)
}
