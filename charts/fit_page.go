package charts

import (
	"fmt"
	"io"

	"arrayodds/array/label"
	"arrayodds/array/record"
	"arrayodds/charts/script"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// fits are the laws of a record as their page draws them.
type fits struct{ study.Fit }

// fitPage is what the template is given.
type fitPage struct {
	shell
	Lead     string
	Lives    []fitLife
	Tables   []table
	Cautions []string
}

// fitLife is the line to paste for one label.
type fitLife struct {
	Mark     mark
	Line     string // empty: none can be given
	Warnings []string
}

var fitTemplate = pageOf(pageFiles, "page/fit.html")

// WriteFit writes the page, which needs no network. The same record gives the
// same bytes. Nothing is written where the page cannot be made.
func WriteFit(w io.Writer, f study.Fit) error {
	return fits{f}.write(w, script.Charts())
}

func (f fits) write(w io.Writer, script []byte) error {
	sh, err := newShell(f.Record, "Unnamed record", "life laws from a record", script, f.charts())
	if err != nil {
		return err
	}
	p := fitPage{shell: sh, Lead: f.lead(), Tables: f.tables(), Cautions: f.cautions()}
	for i, m := range f.marks() {
		l := fitLife{Mark: m}
		for _, text := range f.Results[i].Warnings {
			l.Warnings = append(l.Warnings, label.OneLine(text))
		}
		if life := f.Results[i].Life; life != nil {
			l.Line = "life = " + record.Life(life)
		}
		p.Lives = append(p.Lives, l)
	}
	return writePageTo(w, fitTemplate, p)
}

func (f fits) marks() []mark {
	marks := make([]mark, len(f.Results))
	for i, r := range f.Results {
		marks[i] = markOf(i, r.Label)
	}
	return marks
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

// tables are the figures, a row a label.
func (f fits) tables() []table {
	rates := table{Title: "Failure rates and laws", Of: "Drives", Heads: []head{
		{"Drives", ""}, {"Failures", ""}, {"Drive-days", ""}, {"Failures a year", "% of drives"},
		{"Weibull shape", ""}, {"Weibull scale", "hours"}, {"Log likelihood", "constant rate, Weibull"}, {"p, were the rate constant", ""}},
		Intro: "A shape above 1 is a rate that rises with age, below 1 one that falls. p is that of the likelihood-ratio test: a small one speaks against a constant rate."}
	years := table{Title: "By year of age", Of: "Drives", Heads: []head{{"Failures a year", "% of drives"}},
		Intro: "The first year of age is year 1. A year without a failure has an upper end only."}
	for i, m := range f.marks() {
		r := f.Results[i]
		rates.Rows = append(rates.Rows, row{Mark: m, Cells: rateCells(r)})
		var list []string
		for _, y := range r.ByYear {
			e := y.AFR.Times(100)
			list = append(list, fmt.Sprintf("year %d: %s (%s)", y.Year, figure.Number(e), figure.Interval(e)))
		}
		if list != nil {
			years.Rows = append(years.Rows, row{Mark: m, Cells: []cell{{List: list}}})
		}
	}
	if years.Rows == nil {
		return []table{rates}
	}
	return []table{rates, years}
}

func rateCells(r fit.Result) []cell {
	drives := notKnown()
	if r.Drives != nil {
		drives = cell{Main: figure.Whole(float64(*r.Drives))}
	}
	cells := []cell{drives, {Main: figure.Whole(r.Failures)}, {Main: figure.Whole(r.DriveDays)}, estimated(r.AFR.Times(100))}
	constant := fmt.Sprintf("%.2f", r.ExponentialLogLikelihood)
	w := r.Weibull
	if w == nil {
		return append(cells, notKnown(), notKnown(), cell{Main: constant}, notKnown())
	}
	return append(cells, boundedCell(w.Shape), boundedCell(w.Scale),
		cell{Main: constant, Sub: fmt.Sprintf("%.2f", w.LogLikelihood)}, cell{Main: firm(figure.Significance(*r.LikelihoodRatioP))})
}

// boundedCell is an estimate whose interval may lack an end.
func boundedCell(e estimate.Estimate) cell {
	value, interval := figure.Bounded(e)
	return cell{Main: firm(value), Sub: firm(interval)}
}
