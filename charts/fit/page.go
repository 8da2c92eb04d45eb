package fit

import (
	"cmp"
	_ "embed" // the files of this folder
	"fmt"
	"io"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Lives  []fitLife
	Tables []page.Table
}

// fitLife is the line to paste for one label.
type fitLife struct {
	Mark     draw.Mark
	Line     string // empty: none can be given
	Warnings []string
}

//go:embed fit.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page of a record's laws as [page.Write] does.
func Write(w io.Writer, f study.Fit) error { return page.Write(w, fits{f}.contents()) }

func (f fits) contents() *contents {
	c := &contents{Tables: f.tables(), Page: page.Page{
		Template: pageTemplate(),
		Title:    cmp.Or(label.OneLine(f.Record), "Unnamed record"),
		Kind:     "life laws from a record",
		Charts:   f.charts(),
		Lead:     f.lead(),
		Footer:   page.NewFooter(f.cautions(), nil),
	}}
	for i, m := range f.marks() {
		l := fitLife{Mark: m, Warnings: page.OneLines(f.Results[i].Warnings)}
		if life := f.Results[i].Life; life != nil {
			l.Line = "life = " + life.SiteFile()
		}
		c.Lives = append(c.Lives, l)
	}
	return c
}

func (f fits) marks() []draw.Mark {
	return draw.Marks(f.Results, func(r fit.Result) string { return r.Label })
}

func (f fits) lead() string {
	failures, days := 0.0, 0.0
	for _, r := range f.Results {
		failures += r.Failures
		days += r.DriveDays
	}
	return fmt.Sprintf("%s failures in %s drive-days, %s.", figure.Whole(failures), figure.Whole(days),
		figure.Count(len(f.Results), "label", "labels"))
}

func (f fits) cautions() []string {
	return []string{
		"A record tells of the drives that are in it. Whether those to be bought will be like them, of the same make, in the same heat and under the same load, it cannot tell.",
		"The intervals hold what chance alone does in a record of this size. They do not hold what the record leaves out: drives taken out before they failed, failures that nobody wrote down.",
		"Beyond the greatest age seen, a law is a guess.",
	}
}

// tables returns the figures, a row a label.
func (f fits) tables() []page.Table {
	rates := page.Table{Title: "Failure rates and laws", Of: "Drives", Columns: []page.Column{
		{Name: "Drives"}, {Name: "Failures"}, {Name: "Drive-days"}, {Name: "Failures a year", Unit: "% of drives"},
		{Name: "Weibull shape"}, {Name: "Weibull scale", Unit: "hours"}, {Name: "Log likelihood", Unit: "constant rate, Weibull"}, {Name: "p, were the rate constant"}},
		Intro: "A shape above 1 is a rate that rises with age, below 1 one that falls. p is that of the likelihood-ratio test: a small one speaks against a constant rate."}
	years := page.Table{Title: "By year of age", Of: "Drives", Columns: []page.Column{{Name: "Failures a year", Unit: "% of drives"}},
		Intro: "The first year of age is year 1. A year without a failure has an upper end only."}
	for i, m := range f.marks() {
		r := f.Results[i]
		rates.Rows = append(rates.Rows, page.Row{Mark: m, Cells: rateCells(r)})
		var list []string
		for _, y := range r.ByYear {
			e := y.AFR.Times(100)
			list = append(list, fmt.Sprintf("year %d: %s (%s)", y.Year, figure.Number(e), figure.Interval(e)))
		}
		if list != nil {
			years.Rows = append(years.Rows, page.Row{Mark: m, Cells: []page.Cell{{List: list}}})
		}
	}
	tables := []page.Table{rates}
	if passed := f.crossings(); passed.Rows != nil {
		tables = append(tables, passed)
	}
	if years.Rows != nil {
		tables = append(tables, years)
	}
	return tables
}

// crossings returns the ages at which the rates of the laws pass 5 % and 10 % a year,
// a row for each label whose rate is found to change with age.
func (f fits) crossings() page.Table {
	t := page.Table{Title: "Ages at which the rate passes 5 % and 10 % a year", Of: "Drives",
		Intro: "By the Weibull law, of drives whose rate the record tells to change with age. An age outside of those that it tells of is a guess by the law."}
	for _, rate := range fit.CrossedRates {
		t.Columns = append(t.Columns, page.Column{Name: figure.Exact(100*rate) + " % a year", Unit: "years of age"})
	}
	for i, m := range f.marks() {
		var cells []page.Cell
		for _, c := range f.Results[i].Crossings {
			cells = append(cells, crossingCell(c))
		}
		if cells != nil {
			t.Rows = append(t.Rows, page.Row{Mark: m, Cells: cells})
		}
	}
	return t
}

func crossingCell(c fit.Crossing) page.Cell {
	years, ever := c.Years()
	if !ever {
		return page.Cell{Main: fmt.Sprintf("not within %d", fit.MostYears)}
	}
	cell := boundedCell(years)
	if !c.Rising {
		cell.Main = "below from " + cell.Main
	}
	if !c.Seen {
		cell.Sub += ", a guess"
	}
	return cell
}

func rateCells(r fit.Result) []page.Cell {
	drives := page.UnknownCell()
	if r.Drives != nil {
		drives = page.Cell{Main: figure.Whole(float64(*r.Drives))}
	}
	cells := []page.Cell{drives, {Main: figure.Whole(r.Failures)}, {Main: figure.Whole(r.DriveDays)}, page.EstimateCell(r.AFR.Times(100))}
	constant := fmt.Sprintf("%.2f", r.ExponentialLogLikelihood)
	w := r.Weibull
	if w == nil {
		return append(cells, page.UnknownCell(), page.UnknownCell(), page.Cell{Main: constant}, page.UnknownCell())
	}
	return append(cells, boundedCell(w.Shape), boundedCell(w.Scale),
		page.Cell{Main: constant, Sub: fmt.Sprintf("%.2f", w.LogLikelihood)}, page.Cell{Main: page.Unbroken(figure.Significance(*r.LikelihoodRatioP))})
}

// boundedCell returns an estimate whose interval may lack an end.
func boundedCell(e estimate.Estimate) page.Cell {
	value, interval := figure.Bounded(e)
	return page.Cell{Main: page.Unbroken(value), Sub: page.Unbroken(interval)}
}
