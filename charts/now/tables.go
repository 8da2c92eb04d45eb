package now

import (
	"fmt"

	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	now "arrayodds/sim/now"
)

// tables are what can be done, and what can be copied out.
func (r tonight) tables() (all []page.Table) {
	if len(r.Actions) > 0 {
		all = append(all, r.actionTable())
	}
	if len(r.Copies) > 0 {
		all = append(all, r.copyTable())
	}
	return all
}

func (r tonight) actionTable() page.Table {
	t := page.Table{
		Title: "Each alone, and together", Of: "What is done",
		Intro:   "What is left is the loss chance with it ÷ that without, both from the same random streams; below 1 it takes something off.",
		Columns: []page.Column{{Name: "Loss chance", Unit: "within 30 days"}, {Name: "What is left"}, {Name: "A whole rebuild takes"}},
	}
	add := func(a *now.Action) {
		t.Rows = append(t.Rows, page.Row{
			Mark: draw.Mark{Number: len(t.Rows) + 1, Symbol: draw.Symbol{Shape: draw.NoShape}, Label: label.OneLine(a.Name)},
			Cells: []page.Cell{
				page.ChanceCell(a.Loss),
				{Main: "× " + figure.Ratio(a.Ratio), Sub: ratioInterval(a)},
				{Main: now.Hours(a.RebuildHours), Sub: label.OneLine(a.What)},
			},
		})
	}
	for i := range r.Actions {
		add(&r.Actions[i])
	}
	if r.Together != nil {
		add(r.Together)
	}
	return t
}

// ratioInterval returns the interval of what is left.
func ratioInterval(a *now.Action) string {
	if a.Ratio.Low == a.Ratio.High {
		return "nothing changes"
	}
	return figure.RatioInterval(a.Ratio)
}

func (r tonight) copyTable() page.Table {
	c := &r.Copies[0]
	t := page.Table{
		Title: "Copied out first", Of: "Footage of",
		Intro: fmt.Sprintf("The last week, or what is due where that is less, read at %s: the least of a gigabit network (100 MB/s; common practice, no source), the recorder's link, and half of what recording leaves of the drives. What is copied is safe from the array once the copy is done; check that it can be played.", unit.FormatRate(c.Rate)),
		Columns: []page.Column{
			{Name: "It takes"}, {Name: "Lost before it is done"}, {Name: "Unreadable in it", Unit: "sectors expected"}, {Name: "What it does to the rest", Unit: "loss chance ÷ without"},
		},
	}
	for i := range r.Copies {
		c := &r.Copies[i]
		name := label.OneLine(c.Label)
		if name == "" {
			name = "all cameras"
		}
		delay := "the rebuild takes no longer"
		if c.Delay > 0.05 {
			delay = "the rebuild takes up to " + now.Hours(c.Delay) + " longer"
		}
		t.Rows = append(t.Rows, page.Row{
			Mark: draw.Mark{Number: i + 1, Symbol: draw.Symbol{Shape: draw.NoShape}, Label: name},
			Cells: []page.Cell{
				{Main: now.Hours(c.Hours), Sub: fmt.Sprintf("%s of the last %s", unit.FormatSize(c.Bytes), figure.Plural(figure.Plain(c.Days), "day", "days"))},
				page.ChanceCell(c.Loss),
				{Main: unreadable(c.Unreadable)},
				{Main: "× " + figure.Ratio(c.Other), Sub: delay},
			},
		})
	}
	return t
}

// unreadable returns a number of sectors to as many figures as a read error rate has.
func unreadable(n float64) string {
	if n == 0 {
		return "none"
	}
	return figure.Number(estimate.FromInterval(n, 0.9*n, 1.1*n))
}
