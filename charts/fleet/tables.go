package fleet

import (
	"fmt"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	fleet "arrayodds/sim/fleet"
)

const mostModels = 60 // of the table

// visitTable is the order as far as it is shown.
func (r ranking) visitTable() page.Table {
	t := page.Table{
		Title: "The order", Of: "Array",
		Columns: []page.Column{
			{Name: "How it stands"}, {Name: "Loss chance", Unit: "within 30 days"}, {Name: "Do first"},
			{Name: "Loss chance with it", Unit: "within 30 days"}, {Name: "It takes off", Unit: "losses of 1 000 such arrays"}, {Name: "At stake"},
		},
	}
	if r.Lost+r.Degraded == 0 {
		t.Intro = "Nothing is to be done tonight. These are the arrays in which a loss is likeliest."
	}
	for i := range r.Arrays[:r.Listed(mostRows)] {
		s := &r.Arrays[i]
		t.Rows = append(t.Rows, page.Row{
			Mark:     draw.Mark{Number: i + 1, Symbol: draw.Symbol{Shape: draw.NoShape}, Label: label.OneLine(s.Name)},
			Warnings: s.Warnings,
			Cells:    visitCells(s),
		})
	}
	return t
}

func visitCells(s *fleet.Standing) []page.Cell {
	stands := page.Cell{Main: s.Stands(), Sub: s.SiteName() + " · " + label.OneLine(s.Choice)}
	stake := page.Cell{Main: s.Footage()}
	if stake.Main == "" {
		stake.Main = "no cameras given"
	}
	advice := page.Cell{Main: label.OneLine(s.Advice)}
	if advice.Main == "" {
		advice.Main = "nothing tonight"
	}
	if s.Tied {
		advice.Sub = "≈ not told apart from the one above"
	}
	loss, left, off := page.ChanceCell(s.Loss), page.Cell{Main: "–"}, page.Cell{Main: "–"}
	switch {
	case s.Lost():
		loss = page.Cell{Main: "lost already"}
	case s.Best != nil:
		left = page.ChanceCell(s.Best.Loss)
		off = page.EstimateCell(s.TakesOff.Times(1000))
	}
	return []page.Cell{stands, loss, advice, left, off, stake}
}

// modelTable is the models of drives, and all of them.
func (r ranking) modelTable() page.Table {
	t := page.Table{
		Title: "Failures and spares", Of: "Drives",
		Intro: fmt.Sprintf("From the ages of %s and the laws of their lives, in %s simulated years of the fleet. To have for a year is what is wanted now and the failures that are not exceeded in 95 %% of those years.", figure.Count(r.Year.Drives, "drive", "drives"), figure.Whole(float64(r.Replicates))),
		Columns: []page.Column{
			{Name: "How many", Unit: "drives"}, {Name: "Fail within a year", Unit: "on average"}, {Name: "At most", Unit: "in 95 % of the cases"},
			{Name: "Wanted now"}, {Name: "To have for a year"},
		},
	}
	add := func(name string, arrays int, y *fleet.Year) {
		t.Rows = append(t.Rows, page.Row{
			Mark: draw.Mark{Number: len(t.Rows) + 1, Symbol: draw.Symbol{Shape: draw.NoShape}, Label: name},
			Cells: []page.Cell{
				{Main: figure.Whole(float64(y.Drives)), Sub: "in " + figure.Count(arrays, "array", "arrays")},
				failureCell(y.Failures), page.CountCell(y.Most, 1),
				{Main: figure.Whole(float64(y.Owed))}, {Main: figure.Whole(y.Spares().Value)},
			},
		})
	}
	for i := range r.Models[:min(len(r.Models), mostModels)] {
		m := &r.Models[i]
		add(m.ModelName(), m.Arrays, &m.Year)
	}
	if len(r.Models) > 1 {
		add("All", len(r.Arrays), &r.Year)
	}
	return t
}

func failureCell(e estimate.Estimate) page.Cell {
	if e.Value == 0 && e.High > 0 {
		return page.Cell{Main: "not seen", Sub: "at most " + figure.Exact(e.High)}
	}
	return page.EstimateCell(e)
}
