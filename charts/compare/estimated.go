package compare

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// estimatedDemand returns the range of a demand that rests on estimated bit rates;
// empty where all of them are given.
func (r report) estimatedDemand() string {
	if !r.Site.Estimated() {
		return ""
	}
	return fmt.Sprintf(" That rests on estimated bit rates: it may be %s to %s TB.",
		figure.Exact(r.Site.Lowest().Demand().Needed/array.TB), figure.Exact(r.Site.Highest().Demand().Needed/array.TB))
}

// ends says at which ends of an estimated demand a choice holds it.
func ends(z array.Sizing) string {
	switch {
	case z.AtHigh.Meets:
		return "at the high end of the estimated demand too"
	case z.Meets:
		return "not at the high end of the estimated demand"
	case z.AtLow.Meets:
		return "yes at the low end of the estimated demand alone"
	}
	return "not at the low end of the estimated demand either"
}

// atEnds returns ends as a sentence of a verdict; empty where nothing is estimated.
func (r report) atEnds(o study.Outcome) string {
	if !r.Site.Estimated() {
		return ""
	}
	if o.Sizing.Meets {
		return " Holds the footage " + ends(o.Sizing) + "."
	}
	if o.Sizing.AtLow.Meets {
		return " Would hold it at the low end of the estimated demand."
	}
	return " Would not hold it at the low end of the estimated demand either."
}

// estimatedTable returns the chances at the ends of an estimated bit rate.
func (r report) estimatedTable() page.Table {
	return page.Table{
		Title: "At the ends of the estimated bit rates",
		Intro: "The same choices with every estimated bit rate at its low end, and at its high end: a higher rate fills the drives sooner and leaves rebuilds less of them.",
		Columns: []page.Column{{Name: "A loss in " + page.ServiceLife(r.Site), Unit: "at the low rate, odds"}, {Name: "A loss in " + page.ServiceLife(r.Site), Unit: "at the high rate, odds"},
			{Name: "A clip missing", Unit: "at the low rate, odds"}, {Name: "A clip missing", Unit: "at the high rate, odds"}},
		Rows: r.rowsOf(func(o study.Outcome) []page.Cell {
			low, high := o.Result.AtLowBitRate, o.Result.AtHighBitRate
			if low == nil || high == nil {
				return []page.Cell{page.UnknownCell(), page.UnknownCell(), page.UnknownCell(), page.UnknownCell()}
			}
			return []page.Cell{page.ChanceCell(low.LossChance), page.ChanceCell(high.LossChance), page.ChanceCell(low.MissingClip), page.ChanceCell(high.MissingClip)}
		}, true),
	}
}
