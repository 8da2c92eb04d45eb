package rank

import (
	"html/template"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// tables has one of each choice, a row an input.
func (r ranking) tables() []page.Table {
	var all []page.Table
	for i, c := range r.Choices {
		if len(c.Inputs) == 0 {
			continue
		}
		t := page.Table{Title: draw.MarkOf(i, c.Choice.Label).Numbered(), Of: "Input", Columns: []page.Column{
			{Name: "Range", Unit: "likely value below"}, {Name: "A loss in " + page.ServiceLife(r.Site), Unit: "odds, at the low"}, {Name: "A loss in " + page.ServiceLife(r.Site), Unit: "odds, at the high"}, {Name: "Swing", Unit: "times"}}}
		t.Intro = "With every input at its likely value the chance of a loss is " + page.OddsText(c.Likely) + "."
		shares := withShares(c) != nil
		if words := noiseWords(c); shares && words != "" {
			t.Intro += " " + words
		}
		if shares {
			t.Columns = append(t.Columns, page.Column{Name: "First share", Unit: "of the variance"}, page.Column{Name: "Total share", Unit: "of the variance"})
		}
		heavy, light := weighed(c)
		if light != "" {
			t.Intro += " " + light
		}
		for k, in := range heavy {
			span := page.Cell{Main: label.OneLine(in.Low) + " to " + label.OneLine(in.High), Sub: label.OneLine(in.Likely)}
			if !in.Given {
				span.Sub += "; default range: " + label.OneLine(in.Range)
			}
			cells := []page.Cell{span, page.ChanceCell(in.AtLow), page.ChanceCell(in.AtHigh), swingCell(in.Swing)}
			if shares {
				cells = append(cells, shareCell(in.First), shareCell(in.Total))
			}
			// A rank, without the shape by which choices are known.
			t.Rows = append(t.Rows, page.Row{Mark: draw.Mark{Number: k + 1, Label: page.Called(in.Called, in.Path), Symbol: draw.Symbol{Shape: draw.NoShape}}, Path: typedPath(in), Cells: cells})
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
		return page.UnknownCell()
	}
	return page.Cell{Main: percent(e.Value), Sub: percent(e.Low) + " to " + percent(e.High)}
}

// typedPath returns the path below what an input is called; empty where it is that.
func typedPath(in study.RankedInput) template.HTML {
	if in.Called == "" || in.Called == in.Path {
		return ""
	}
	return page.PathHTML(in.Path)
}
