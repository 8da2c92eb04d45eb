package rank

import (
	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// tables has one of each choice, a row an input.
func (r ranking) tables() []page.Table {
	var all []page.Table
	for i, c := range r.Choices {
		if len(c.Inputs) == 0 {
			continue
		}
		t := page.Table{Title: draw.MarkOf(i, c.Choice.Label).Numbered(), Of: "Input", Heads: []page.Head{
			{Name: "Range", Unit: "likely value below"}, {Name: "A loss in " + figure.Years(r.years()), Unit: "odds, at the low"}, {Name: "A loss in " + figure.Years(r.years()), Unit: "odds, at the high"}, {Name: "Swing", Unit: "times"}}}
		t.Intro = "With every input at its likely value the chance of a loss is " + page.OddsLine(c.Likely) + "."
		shares := withShares(c) != nil
		if words := noiseWords(c); shares && words != "" {
			t.Intro += " " + words
		}
		if shares {
			t.Heads = append(t.Heads, page.Head{Name: "First share", Unit: "of the variance"}, page.Head{Name: "Total share", Unit: "of the variance"})
		}
		for k, in := range c.Inputs {
			span := page.Cell{Main: label.OneLine(in.Low) + " to " + label.OneLine(in.High), Sub: label.OneLine(in.Likely)}
			if !in.Given {
				span.Sub += "; default range: " + label.OneLine(in.Range)
			}
			cells := []page.Cell{span, page.Chance(in.AtLow), page.Chance(in.AtHigh), swingCell(in.Swing)}
			if shares {
				cells = append(cells, shareCell(in.First), shareCell(in.Total))
			}
			// A rank, without the shape by which choices are known.
			t.Rows = append(t.Rows, page.Row{Mark: draw.Mark{Number: k + 1, Label: label.OneLine(in.Path), Shape: "path://"}, Cells: cells})
		}
		all = append(all, t)
	}
	return all
}

func swingCell(e estimate.Estimate) page.Cell {
	if boundless(e) {
		return page.Cell{Main: "not known", Sub: "no loss at one end"}
	}
	return page.RatioCell(e)
}

func shareCell(e *estimate.Estimate) page.Cell {
	if e == nil {
		return page.NotKnown()
	}
	return page.Cell{Main: percent(e.Value), Sub: percent(e.Low) + " to " + percent(e.High)}
}
