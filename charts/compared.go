package charts

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/charts/figure"
)

// comparedTable sets the simulation beside the exact chain and the textbook.
func (r Report) comparedTable() table {
	return table{
		Title: "Simulated, exact and textbook",
		Intro: "The exact figure solves the Markov chain of the same model and can be had only where every law is exponential; the simulation's interval should hold it 19 times in 20. " +
			"The textbook figure is 1 − exp(−groups × life ÷ MTTDL): one constant failure rate, mean times to restore, independent drives, no end to the supply of spares. It goes astray wherever a site does otherwise, most of all where waits are long or scattered, drives share a batch or an enclosure, or sectors go unread.",
		Heads: []head{{"Simulated", "odds over the life"}, {"Exact", "odds"}, {"Textbook", "odds"}, {"Simulated ÷ textbook", ""}, {"What the textbook leaves out here", ""}},
		Rows:  r.rowsOf(r.comparedCells, true),
	}
}

func (r Report) comparedCells(o Outcome) []cell {
	x := o.Result
	exact := cell{Main: "not available", Sub: "not every law is exponential"}
	if x.Exact != nil {
		exact = cell{Main: firm(figure.Chance(*x.Exact)), Sub: firm(figure.Exact(*x.Exact))}
		if *x.Exact < x.LossChance.Low || *x.Exact > x.LossChance.High {
			exact.Sub += "; outside the simulation's interval, as one in 20 may be"
		}
	}
	book, ratio := cell{Main: "not available"}, cell{Main: "not available"}
	if x.Textbook != nil {
		book = cell{Main: firm(figure.Chance(*x.Textbook)), Sub: firm(figure.Exact(*x.Textbook))}
		if *x.Textbook > 0 {
			ratio = estimated(scaled(x.LossChance, 1 / *x.Textbook))
		}
	}
	return []cell{chance(x.LossChance), exact, book, ratio, {Main: capital(list(r.leftOut(o)))}}
}

// leftOut is what this choice does that the textbook formula cannot say.
func (r Report) leftOut(o Outcome) []string {
	var out []string
	add := func(when bool, what string) {
		if when {
			out = append(out, what)
		}
	}
	care, drive := o.Choice.Care, o.Choice.Drive
	switch drive.Life.(type) {
	case array.WeibullLife, array.RateByYear:
		out = append(out, "failure rates that change with age")
	case array.FieldRecord:
		out = append(out, "how uncertain the rate is")
	}
	if o.redundant() {
		add(!exponential(care), "how restore times scatter")
		add(o.Choice.HotSpares > 0, "hot spares running out")
		add(care.Parallel && o.Sizing.Shape.Tolerance > 1, "rebuilds side by side")
		add(drive.LatentMean > 0, "latent defects")
		add(drive.ReadErrorBits > 0 && !care.Stop, "unreadable sectors")
	}
	add(drive.BatchVariance > 0, "drives of one batch")
	add(r.Site.Hazards.CommonPerYear > 0, "common causes")
	add(o.redundant() && r.Site.Hazards.DegradedMultiplier != 1 && r.Site.Hazards.DegradedMultiplier != 0, "the load on the survivors")
	if len(out) == 0 {
		out = append(out, "nothing of note")
	}
	return out
}

// exponential says whether the time to restore is without memory, as the
// textbook takes it to be.
func exponential(c array.Care) bool {
	_, ok := c.Restore.(array.Exponential)
	return ok
}

// cautions is what a reader must know before acting on the figures.
func (r Report) cautions() []string {
	out := []string{
		"RAID is no backup. It does not help against deletion, fire, theft, flooding, a faulty controller or a mistake. Footage that must not be lost needs a second copy elsewhere.",
		"A simulated chance is an estimate under the assumptions listed above, not a promise. The intervals are those of the simulation alone: they do not contain the doubt about the assumptions, which is often larger.",
	}
	var records, constant, open bool
	for _, o := range r.Outcomes {
		switch o.Choice.Drive.Life.(type) {
		case array.FieldRecord:
			records = true
		default:
			constant = true
		}
		for _, t := range []array.Time{o.Choice.Care.Notice, o.Choice.Care.Response, o.Choice.Care.Restock, o.Choice.Care.Scrub, o.Choice.Care.Restore} {
			if _, ok := t.(array.OpenHours); ok {
				open = true
			}
		}
	}
	if constant {
		out = append(out, "Failure rates from a data sheet are often lower than those seen in the field. Where a rate is uncertain, try it twice as high and see whether the order of the choices holds.")
	}
	if records {
		out = append(out, "Rates taken from a record of failures carry the uncertainty of that record into the loss chance; they do not tell whether the drives bought will be like those of the record.")
	}
	if open {
		out = append(out, "Times counted in open hours know the week but no holidays: over a holiday season a response takes longer than is counted here.")
	}
	if r.Plain {
		out = append(out, "This run simulated life by life, without branching. Where it saw no loss, that is no proof that there is none: read the upper end of the interval.")
	}
	out = append(out, fmt.Sprintf("“1 in N over %s” is about one array. Who runs many arrays will see losses sooner: of N such arrays, about one.", years(r.years())))
	return append(out,
		"How long footage must or may be kept, and what may be recorded at all, is a matter of local law on retention and privacy. Ask those who answer for it.",
		"Racks of drives are heavy, and recorders and their batteries carry mains power: lifting by enough hands, electrical work by qualified people only.")
}
