package compare

import (
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// comparedTable sets the simulation beside the exact chain and the textbook.
func (r report) comparedTable() page.Table {
	return page.Table{
		Title: "Simulated, exact and textbook",
		Intro: "The exact figure solves the Markov chain of the same model and can be had only where every law is exponential; the simulation's interval should hold it 19 times in 20. " +
			"The textbook figure is 1 − exp(−groups × life ÷ MTTDL): one constant failure rate, mean times to restore, independent drives, no end to the supply of spares. It goes astray wherever a site does otherwise, most of all where waits are long or scattered, drives share a batch or an enclosure, or sectors go unread.",
		Columns: []page.Column{{Name: "Simulated", Unit: "odds over the life"}, {Name: "Exact", Unit: "odds"}, {Name: "Textbook", Unit: "odds"}, {Name: "Simulated ÷ textbook"}, {Name: "What the textbook leaves out here"}},
		Rows:    r.rowsOf(r.comparedCells, true),
	}
}

func (r report) comparedCells(o study.Outcome) []page.Cell {
	x := o.Result
	exact := page.Cell{Main: "not available", Sub: "not every law is exponential"}
	if x.Exact != nil {
		exact = page.Cell{Main: page.Unbroken(figure.Chance(*x.Exact)), Sub: page.Unbroken(figure.Exact(*x.Exact))}
		if x.LossChance.Known() && !x.LossChance.Holds(*x.Exact) {
			exact.Sub += "; outside the simulation's interval, as one in 20 may be"
		}
	}
	book, ratio := page.Cell{Main: "not available"}, page.Cell{Main: "not available"}
	if x.Textbook != nil {
		book = page.Cell{Main: page.Unbroken(figure.Chance(*x.Textbook)), Sub: page.Unbroken(figure.Exact(*x.Textbook))}
		if *x.Textbook > 0 {
			ratio = page.EstimateCell(x.LossChance.Times(1 / *x.Textbook))
		}
	}
	return []page.Cell{page.ChanceCell(x.LossChance), exact, book, ratio, {Main: figure.Capital(figure.List(r.leftOut(o)))}}
}

// leftOut returns what this choice does that the textbook formula cannot say.
func (r report) leftOut(o study.Outcome) []string {
	var out []string
	add := func(when bool, what string) {
		if when {
			out = append(out, what)
		}
	}
	care, drive := o.Choice.Care, o.Choice.Drive
	if drive.Life != nil {
		beyond := drive.Life.About().Beyond
		add(beyond != "", beyond)
	}
	if o.Redundant() {
		add(care.Restore == nil || !care.Restore.Memoryless(), "how restore times scatter")
		add(o.Choice.HotSpares > 0, "hot spares running out")
		add(care.Parallel && o.Sizing.Shape.Tolerance > 1, "rebuilds side by side")
		add(drive.LatentMean > 0, "latent defects")
		add(drive.ReadErrorBits > 0 && !care.Stop, "unreadable sectors")
	}
	add(drive.BatchVariance > 0, "drives of one batch")
	add(r.Site.Hazards.CommonPerYear > 0, "common causes")
	add(o.Redundant() && r.Site.Hazards.DegradedMultiplier != 1 && r.Site.Hazards.DegradedMultiplier != 0, "the load on the survivors")
	if len(out) == 0 {
		out = append(out, "nothing of note")
	}
	return out
}
