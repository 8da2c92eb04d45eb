package compare

import (
	"fmt"

	"arrayodds/charts/page"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// stripeUnit is what one unreadable sector costs where the rebuild goes on
// (common practice, no source).
const stripeUnit = 512 * 1024 // bytes

// lossTable returns the chances of losing footage.
func (r report) lossTable() page.Table {
	t := page.Table{
		Title: "Chance of losing footage",
		Intro: "Odds, with the 95 % interval below. A loss is a whole group of drives gone; an incident is a loss, or an unreadable sector met with no redundancy left. All figures but the first and the third count later losses too.",
		Columns: []page.Column{{Name: "A loss in " + page.ServiceLife(r.Site), Unit: "odds"}, {Name: "A loss in one retention period", Unit: "odds"}, {Name: "A first incident in " + page.ServiceLife(r.Site), Unit: "odds"},
			{Name: "Losses", Unit: "mean over the life"}, {Name: "Incidents", Unit: "mean over the life"}},
	}
	records := false
	for _, o := range r.Outcomes {
		records = records || recordOdds(o.Result) != ""
	}
	if records {
		t.Columns = append(t.Columns, page.Column{Name: "Left open by the record", Unit: "a loss in " + page.ServiceLife(r.Site) + ", odds"})
		t.Intro += " The last column is a 95 % interval of another kind: how far the first figure could be off because the record behind the drives' life is short. More trials make the simulation's interval narrower; only a longer record makes this one so."
	}
	if r.hasCameras() {
		t.Intro += fmt.Sprintf(" The retention period is the longest, %s, set anywhere in the service life.", figure.Days(r.Site.Demand().Longest))
	}
	t.Rows = r.rowsOf(func(o study.Outcome) []page.Cell {
		x := o.Result
		horizon := page.Cell{Main: "no cameras given"}
		if x.HasCameras {
			horizon = page.ChanceCell(x.LossChanceRetention)
		}
		cells := []page.Cell{page.ChanceCell(x.LossChance), horizon, page.ChanceCell(x.AnyLossChance), page.EstimateCell(x.LossEvents), page.EstimateCell(x.Incidents)}
		if records {
			open := page.Cell{Main: "no record used"}
			if odds := recordOdds(x); odds != "" {
				open.Main = odds
			}
			cells = append(cells, open)
		}
		return cells
	}, true)
	return t
}

// curveTable returns the loss chance year by year.
func (r report) curveTable() page.Table {
	return page.Table{
		Title:   "Chance of losing footage, year by year",
		Columns: []page.Column{{Name: "At least one loss within", Unit: "odds and 95 % interval"}},
		Rows: r.rowsOf(func(o study.Outcome) []page.Cell {
			var lines []string
			for _, p := range o.Result.LossCurve {
				line := figure.Years(p.Years) + ": " + figure.Odds(p.Estimate)
				if p.High > p.Low {
					line += " (" + figure.OddsInterval(p.Estimate) + ")"
				}
				lines = append(lines, page.Unbroken(line))
			}
			if lines == nil {
				lines = []string{"not known"}
			}
			return []page.Cell{{List: lines}}
		}, true),
	}
}

// missingTable returns the missing-clip chance and its causes.
func (r report) missingTable() page.Table {
	t := page.Table{
		Title:   "Chance that a clip asked for is missing",
		Intro:   "A clip of any camera, asked for at any time of the service life and of any age within its retention. One loss of a full ring counts half the retention of all footage.",
		Columns: []page.Column{{Name: "In all", Unit: "odds"}},
	}
	for _, k := range causes() {
		t.Columns = append(t.Columns, page.Column{Name: figure.Capital(k.Name), Unit: "odds"})
	}
	t.Rows = r.rowsOf(func(o study.Outcome) []page.Cell {
		cells := []page.Cell{page.ChanceCell(o.Result.MissingClip)}
		for _, k := range causes() {
			cells = append(cells, page.ChanceCell(k.Of(o.Result.MissingByCause)))
		}
		return cells
	}, true)
	return t
}

// destroyedTable returns the table of what losses destroy.
func (r report) destroyedTable() page.Table {
	t := page.Table{
		Title: "Footage destroyed",
		Intro: "Each hour of footage destroyed is counted once. An unreadable sector costs one stripe unit of 512 KiB where the rebuild goes on.",
	}
	if !r.hasCameras() {
		t.Intro += " The camera-days rest on cameras, and the site file names none."
		t.Columns = []page.Column{{Name: "Unreadable stripes", Unit: "mean over the life"}}
		t.Rows = r.rowsOf(func(o study.Outcome) []page.Cell { return []page.Cell{page.EstimateCell(o.Result.UnreadableStripes)} }, true)
		return t
	}
	t.Intro += fmt.Sprintf(" A stripe unit is %s s of one camera on average.", figure.Number(estimate.Estimate{Value: r.stripeSeconds(), Low: 0.95 * r.stripeSeconds(), High: 1.05 * r.stripeSeconds()}))
	t.Columns = []page.Column{{Name: "Camera-days lost", Unit: "a year, mean"}, {Name: "One loss destroys", Unit: "camera-days, half of losses at most"}, {Name: "One loss destroys", Unit: "camera-days, 95 % of losses at most"},
		{Name: "Unreadable stripes", Unit: "mean over the life"}, {Name: "The same", Unit: "seconds of one camera"}}
	t.Rows = r.rowsOf(func(o study.Outcome) []page.Cell {
		x := o.Result
		half, most := page.QuantileCell(x.CameraDaysPerLossHalf), page.QuantileCell(x.CameraDaysPerLoss95)
		if x.LossChance.Value == 0 {
			half, most = page.Cell{Main: "no loss found"}, page.Cell{Main: "no loss found"}
		}
		stripes := page.EstimateCell(x.UnreadableStripes)
		return []page.Cell{page.EstimateCell(x.CameraDaysLostPerYear), half, most, stripes, page.EstimateCell(x.UnreadableStripes.Times(r.stripeSeconds()))}
	}, true)
	return t
}

// stripeSeconds returns what a stripe unit holds of one camera, in seconds: a camera
// is as likely to be hit as it writes.
func (r report) stripeSeconds() float64 {
	seconds, all := 0.0, r.Site.Demand().WriteRate
	for _, c := range r.Site.Cameras {
		seconds += c.WriteRate() / all * stripeUnit * 8 / c.BitRate
	}
	return seconds
}

// workTable returns the table of what the arrays ask of the people who look after them.
func (r report) workTable() page.Table {
	return page.Table{
		Title:   "Work and exposure",
		Intro:   "Hours without redundancy are summed over the groups: each hour in which one further failure would lose a group. Drives replaced over the life tell how many spares to stock.",
		Columns: []page.Column{{Name: "Without redundancy", Unit: "hours a year"}, {Name: "Rebuilds", Unit: "a year"}, {Name: "Drives replaced", Unit: "mean over the life"}, {Name: "Drives replaced", Unit: "95 % of lives at most"}},
		Rows: r.rowsOf(func(o study.Outcome) []page.Cell {
			x := o.Result
			exposed, rebuilds := page.EstimateCell(x.UnprotectedHoursPerYear), page.EstimateCell(x.RebuildsPerYear)
			if !o.Redundant() {
				exposed = page.Cell{Main: "always exposed", Sub: "never had redundancy: none to lose, so 0 hours counted, 100 % of the time exposed"}
				rebuilds = page.Cell{Main: "none", Sub: "nothing to rebuild from"}
			}
			return []page.Cell{exposed, rebuilds, page.EstimateCell(x.DrivesReplaced), page.CountCell(x.DrivesReplaced95, 1)}
		}, true),
	}
}

// trustTable returns the table of how far the figures go.
func (r report) trustTable() page.Table {
	t := page.Table{
		Title:   "How far the figures can be trusted",
		Intro:   fmt.Sprintf("Asked for: a 95 %% half-width of %s %% of the loss chance. Seed %d. The effective samples say how many equal ones the sample is worth, the largest share what the heaviest trial carries.", figure.Exact(100*r.Accuracy), r.Seed),
		Columns: []page.Column{{Name: "Trials"}, {Name: "Stopped by"}, {Name: "Half-width reached", Unit: "% of the loss chance"}, {Name: "Effective samples"}, {Name: "Largest share", Unit: "%"}},
	}
	t.Rows = r.rowsOf(func(o study.Outcome) []page.Cell {
		x := o.Result
		if !o.Simulated() {
			return []page.Cell{page.UnknownCell(), stopped(x), page.UnknownCell(), page.UnknownCell(), page.UnknownCell()}
		}
		return []page.Cell{{Main: figure.Whole(float64(x.Trials))}, stopped(x), reached(x.LossChance), {Main: figure.Whole(x.EffectiveSamples)},
			{Main: figure.Number(estimate.Estimate{Value: 100 * x.LargestShare, Low: 95 * x.LargestShare, High: 105 * x.LargestShare})}}
	}, true)
	return t
}

func stopped(x sim.Result) page.Cell {
	switch x.StoppedBy {
	case engine.ByAccuracy:
		return page.Cell{Main: "accuracy reached"}
	case engine.ByBound:
		return page.Cell{Main: "bound on work", Sub: "before the first lives were told"}
	case engine.ByBudget:
		return page.Cell{Main: "budget used up", Sub: "before the accuracy was reached"}
	}
	return page.Cell{Main: string(x.StoppedBy)}
}

func reached(e estimate.Estimate) page.Cell {
	if e.Value <= 0 {
		return page.Cell{Main: "no loss found"}
	}
	half := 100 * figure.Half(e) / e.Value
	return page.Cell{Main: figure.Number(estimate.Estimate{Value: half, Low: 0.95 * half, High: 1.05 * half})}
}

// policyTable sets the two policies for unreadable sectors side by side.
func (r report) policyTable() page.Table {
	return page.Table{
		Title:   "Unreadable sectors: going on or stopping",
		Intro:   "When a sector cannot be read and no redundancy is left, a controller either skips it (one stripe unit is lost) or stops (the group is lost). The first incident has the same law under both, so both figures come from one run. They can lie orders of magnitude apart, and so does what is lost: find out what the controller does.",
		Columns: []page.Column{{Name: "In the site file", Unit: "unreadable"}, {Name: "If it skips", Unit: "groups lost, odds over the life"}, {Name: "If it stops", Unit: "any incident, odds over the life"}, {Name: "Unreadable stripes", Unit: "mean over the life"}},
		Rows: r.rowsOf(func(o study.Outcome) []page.Cell {
			x := o.Result
			if !o.Redundant() {
				return []page.Cell{{Main: "does not apply", Sub: "no rebuild, so no sector is met"}, page.ChanceCell(x.LossChance), page.ChanceCell(x.AnyLossChance), {Main: "none"}}
			}
			policy, skip := "skip", page.ChanceCell(x.LossChance)
			if o.Choice.Care.Stop {
				policy, skip = "stop", page.Cell{Main: "not run", Sub: "at most the figure beside it; set unreadable = \"skip\" to see it"}
			}
			stop := page.ChanceCell(x.AnyLossChance)
			return []page.Cell{{Main: policy}, skip, stop, page.EstimateCell(x.UnreadableStripes)}
		}, true),
	}
}
