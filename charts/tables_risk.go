package charts

import (
	"fmt"

	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// stripeUnit is what one unreadable sector costs where the rebuild goes on
// (common practice, no source).
const stripeUnit = 512 * 1024 // bytes

// lossTable is the chances of losing footage.
func (r report) lossTable() table {
	t := table{
		Title: "Chance of losing footage",
		Intro: "Odds, with the 95 % interval below. A loss is a whole group of drives gone; an incident is a loss, or an unreadable sector met with no redundancy left. All figures but the first and the third count later losses too.",
		Heads: []head{{"A loss in " + figure.Years(r.years()), "odds"}, {"A loss in one retention period", "odds"}, {"A first incident in " + figure.Years(r.years()), "odds"},
			{"Losses", "mean over the life"}, {"Incidents", "mean over the life"}},
	}
	records := false
	for _, o := range r.Outcomes {
		records = records || recordOdds(o.Result) != ""
	}
	if records {
		t.Heads = append(t.Heads, head{"Left open by the record", "a loss in " + figure.Years(r.years()) + ", odds"})
		t.Intro += " The last column is a 95 % interval of another kind: how far the first figure could be off because the record behind the drives' life is short. More trials make the simulation's interval narrower; only a longer record makes this one so."
	}
	if r.hasCameras() {
		t.Intro += fmt.Sprintf(" The retention period is the longest, %s, set anywhere in the service life.", figure.Days(r.Site.Demand().Longest))
	}
	t.Rows = r.rowsOf(func(o study.Outcome) []cell {
		x := o.Result
		horizon := cell{Main: "no cameras given"}
		if x.HasCameras {
			horizon = chance(x.LossChanceRetention)
		}
		cells := []cell{chance(x.LossChance), horizon, chance(x.AnyLossChance), estimated(x.LossEvents), estimated(x.Incidents)}
		if records {
			open := cell{Main: "no record used"}
			if odds := recordOdds(x); odds != "" {
				open.Main = odds
			}
			cells = append(cells, open)
		}
		return cells
	}, true)
	return t
}

// curveTable is the loss chance year by year.
func (r report) curveTable() table {
	return table{
		Title: "Chance of losing footage, year by year",
		Heads: []head{{"At least one loss within", "odds and 95 % interval"}},
		Rows: r.rowsOf(func(o study.Outcome) []cell {
			var lines []string
			for _, p := range o.Result.LossCurve {
				line := figure.Years(p.Years) + ": " + figure.Odds(p.Estimate)
				if p.High > p.Low {
					line += " (" + figure.OddsInterval(p.Estimate) + ")"
				}
				lines = append(lines, firm(line))
			}
			if lines == nil {
				lines = []string{"not known"}
			}
			return []cell{{List: lines}}
		}, true),
	}
}

// missingTable is the missing-clip chance and its causes.
func (r report) missingTable() table {
	t := table{
		Title: "Chance that a clip asked for is missing",
		Intro: "A clip of any camera, asked for at any time of the service life and of any age within its retention. One loss of a full ring counts half the retention of all footage.",
		Heads: []head{{"In all", "odds"}},
	}
	for _, k := range causes() {
		t.Heads = append(t.Heads, head{figure.Capital(k.Name), "odds"})
	}
	t.Rows = r.rowsOf(func(o study.Outcome) []cell {
		cells := []cell{chance(o.Result.MissingClip)}
		for _, k := range causes() {
			cells = append(cells, chance(k.Of(o.Result.MissingByCause)))
		}
		return cells
	}, true)
	return t
}

// destroyedTable is what losses destroy.
func (r report) destroyedTable() table {
	t := table{
		Title: "Footage destroyed",
		Intro: "Each hour of footage destroyed is counted once. An unreadable sector costs one stripe unit of 512 KiB where the rebuild goes on.",
	}
	if !r.hasCameras() {
		t.Intro += " The camera-days rest on cameras, and the site file names none."
		t.Heads = []head{{"Unreadable stripes", "mean over the life"}}
		t.Rows = r.rowsOf(func(o study.Outcome) []cell { return []cell{estimated(o.Result.UnreadableStripes)} }, true)
		return t
	}
	t.Intro += fmt.Sprintf(" A stripe unit is %s s of one camera on average.", figure.Number(estimate.Estimate{Value: r.stripeSeconds(), Low: 0.95 * r.stripeSeconds(), High: 1.05 * r.stripeSeconds()}))
	t.Heads = []head{{"Camera-days lost", "a year, mean"}, {"One loss destroys", "camera-days, half of losses at most"}, {"One loss destroys", "camera-days, 95 % of losses at most"},
		{"Unreadable stripes", "mean over the life"}, {"The same", "seconds of one camera"}}
	t.Rows = r.rowsOf(func(o study.Outcome) []cell {
		x := o.Result
		half, most := quantile(x.CameraDaysPerLossHalf), quantile(x.CameraDaysPerLoss95)
		if x.LossChance.Value == 0 {
			half, most = cell{Main: "no loss found"}, cell{Main: "no loss found"}
		}
		stripes := estimated(x.UnreadableStripes)
		return []cell{estimated(x.CameraDaysLostPerYear), half, most, stripes, estimated(x.UnreadableStripes.Times(r.stripeSeconds()))}
	}, true)
	return t
}

// stripeSeconds is what a stripe unit holds of one camera, in seconds: a camera
// is as likely to be hit as it writes.
func (r report) stripeSeconds() float64 {
	seconds, all := 0.0, r.Site.Demand().WriteRate
	for _, c := range r.Site.Cameras {
		seconds += c.WriteRate() / all * stripeUnit * 8 / c.BitRate
	}
	return seconds
}

// workTable is what the arrays ask of the people who look after them.
func (r report) workTable() table {
	return table{
		Title: "Work and exposure",
		Intro: "Hours without redundancy are summed over the groups: each hour in which one further failure would lose a group. Drives replaced over the life tell how many spares to stock.",
		Heads: []head{{"Without redundancy", "hours a year"}, {"Rebuilds", "a year"}, {"Drives replaced", "mean over the life"}, {"Drives replaced", "95 % of lives at most"}},
		Rows: r.rowsOf(func(o study.Outcome) []cell {
			x := o.Result
			exposed, rebuilds := estimated(x.UnprotectedHoursPerYear), estimated(x.RebuildsPerYear)
			if !o.Redundant() {
				exposed = cell{Main: "always exposed", Sub: "never had redundancy: none to lose, so 0 hours counted, 100 % of the time exposed"}
				rebuilds = cell{Main: "none", Sub: "nothing to rebuild from"}
			}
			return []cell{exposed, rebuilds, estimated(x.DrivesReplaced), counted(x.DrivesReplaced95, 1)}
		}, true),
	}
}

// trustTable is how far the figures go.
func (r report) trustTable() table {
	t := table{
		Title: "How far the figures can be trusted",
		Intro: fmt.Sprintf("Asked for: a 95 %% half-width of %s %% of the loss chance. Seed %d. The effective samples say how many equal ones the sample is worth, the largest share what the heaviest trial carries.", figure.Exact(100*r.Accuracy), r.Seed),
		Heads: []head{{"Trials", ""}, {"Stopped by", ""}, {"Half-width reached", "% of the loss chance"}, {"Effective samples", ""}, {"Largest share", "%"}},
	}
	t.Rows = r.rowsOf(func(o study.Outcome) []cell {
		x := o.Result
		return []cell{{Main: figure.Whole(float64(x.Trials))}, stopped(x), reached(x.LossChance), {Main: figure.Whole(x.EffectiveSamples)},
			{Main: figure.Number(estimate.Estimate{Value: 100 * x.LargestShare, Low: 95 * x.LargestShare, High: 105 * x.LargestShare})}}
	}, true)
	return t
}

func stopped(x sim.Result) cell {
	switch x.StoppedBy {
	case engine.ByAccuracy:
		return cell{Main: "accuracy reached"}
	case engine.ByBudget:
		return cell{Main: "budget used up", Sub: "before the accuracy was reached"}
	}
	return cell{Main: string(x.StoppedBy)}
}

func reached(e estimate.Estimate) cell {
	if e.Value <= 0 {
		return cell{Main: "no loss found"}
	}
	half := 100 * figure.Half(e) / e.Value
	return cell{Main: figure.Number(estimate.Estimate{Value: half, Low: 0.95 * half, High: 1.05 * half})}
}

// policyTable sets the two policies for unreadable sectors side by side.
func (r report) policyTable() table {
	return table{
		Title: "Unreadable sectors: going on or stopping",
		Intro: "When a sector cannot be read and no redundancy is left, a controller either skips it (one stripe unit is lost) or stops (the group is lost). The first incident has the same law under both, so both figures come from one run. They can lie orders of magnitude apart, and so does what is lost: find out what the controller does.",
		Heads: []head{{"In the site file", "unreadable"}, {"If it skips", "groups lost, odds over the life"}, {"If it stops", "any incident, odds over the life"}, {"Unreadable stripes", "mean over the life"}},
		Rows: r.rowsOf(func(o study.Outcome) []cell {
			x := o.Result
			if !o.Redundant() {
				return []cell{{Main: "does not apply", Sub: "no rebuild, so no sector is met"}, chance(x.LossChance), chance(x.AnyLossChance), {Main: "none"}}
			}
			policy, skip := "skip", chance(x.LossChance)
			if o.Choice.Care.Stop {
				policy, skip = "stop", cell{Main: "not run", Sub: "at most the figure beside it; set unreadable = \"skip\" to see it"}
			}
			stop := chance(x.AnyLossChance)
			return []cell{{Main: policy}, skip, stop, estimated(x.UnreadableStripes)}
		}, true),
	}
}
