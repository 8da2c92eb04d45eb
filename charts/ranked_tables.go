package charts

import (
	"arrayodds/array/label"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// tables has one of each choice, a row an input.
func (r ranking) tables() []table {
	var all []table
	for i, c := range r.Choices {
		if len(c.Inputs) == 0 {
			continue
		}
		t := table{Title: markOf(i, c.Choice.Label).numbered(), Of: "Input", Heads: []head{
			{"Range", "likely value below"}, {"A loss in " + figure.Years(r.years()), "odds, at the low"}, {"A loss in " + figure.Years(r.years()), "odds, at the high"}, {"Swing", "times"}}}
		t.Intro = "With every input at its likely value the chance of a loss is " + oddsText(c.Likely) + "."
		shares := withShares(c) != nil
		if words := noiseWords(c); shares && words != "" {
			t.Intro += " " + words
		}
		if shares {
			t.Heads = append(t.Heads, head{"First share", "of the variance"}, head{"Total share", "of the variance"})
		}
		for k, in := range c.Inputs {
			span := cell{Main: label.OneLine(in.Low) + " to " + label.OneLine(in.High), Sub: label.OneLine(in.Likely)}
			if !in.Given {
				span.Sub += "; default range: " + label.OneLine(in.Range)
			}
			cells := []cell{span, chance(in.AtLow), chance(in.AtHigh), swingCell(in.Swing)}
			if shares {
				cells = append(cells, shareCell(in.First), shareCell(in.Total))
			}
			// A rank, without the shape by which choices are known.
			t.Rows = append(t.Rows, row{Mark: mark{Number: k + 1, Label: label.OneLine(in.Path), Shape: "path://"}, Cells: cells})
		}
		all = append(all, t)
	}
	return all
}

func swingCell(e estimate.Estimate) cell {
	if boundless(e) {
		return cell{Main: "not known", Sub: "no loss at one end"}
	}
	return ratioCell(e)
}

func shareCell(e *estimate.Estimate) cell {
	if e == nil {
		return notKnown()
	}
	return cell{Main: percent(e.Value), Sub: percent(e.Low) + " to " + percent(e.High)}
}
