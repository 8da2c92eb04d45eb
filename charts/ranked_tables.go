package charts

import (
	"math"

	"arrayodds/sim"
)

// tables has one of each choice, a row an input.
func (r Ranked) tables() []table {
	var all []table
	for i, c := range r.Choices {
		if len(c.Inputs) == 0 {
			continue
		}
		t := table{Title: markOf(i, c.Choice.Label).numbered(), Of: "Input", Heads: []head{
			{"Range", "likely value below"}, {"A loss in " + years(r.years()), "odds, at the low"}, {"A loss in " + years(r.years()), "odds, at the high"}, {"Swing", "times"}}}
		shares := false
		for _, in := range c.Inputs {
			shares = shares || in.First != nil
		}
		if shares {
			t.Heads = append(t.Heads, head{"First share", "of the variance"}, head{"Total share", "of the variance"})
		}
		for k, in := range c.Inputs {
			span := cell{Main: oneLine(in.Low) + " to " + oneLine(in.High), Sub: oneLine(in.Likely)}
			if !in.Given {
				span.Sub += "; default range: " + oneLine(in.Range)
			}
			cells := []cell{span, chance(in.AtLow), chance(in.AtHigh), swingCell(in.Swing)}
			if shares {
				cells = append(cells, shareCell(in.First), shareCell(in.Total))
			}
			t.Rows = append(t.Rows, row{Mark: markOf(k, in.Path), Cells: cells})
		}
		all = append(all, t)
	}
	return all
}

func swingCell(e sim.Estimate) cell {
	if math.IsInf(e.Value, 0) || math.IsInf(e.High, 0) {
		return cell{Main: "not known", Sub: "no loss at one end"}
	}
	return ratioCell(e)
}

func shareCell(e *sim.Estimate) cell {
	if e == nil {
		return notKnown()
	}
	return cell{Main: percent(e.Value), Sub: percent(e.Low) + " to " + percent(e.High)}
}
