package print

import (
	"fmt"
	"io"
	"strings"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// mostDetailed is how many labels are shown year by year; more would push the
// rest off the screen, and stand in the page and in the JSON.
const mostDetailed = 6

// Fit writes what a record says of each label, the life laws to paste into a site
// file, and the warnings.
func Fit(w io.Writer, f study.Fit) error {
	parts := []string{paragraph("%s: %s, %s rows", plain(f.Record), f.Form, whole(f.Rows)), ratesTable(f.Results)}
	if len(f.Results) <= mostDetailed {
		parts = append(parts, ageTable(f.Results))
	}
	parts = append(parts, crossings(f.Results)...)
	if lines := lives(f.Results); lines != "" {
		parts = append(parts, lines)
	}
	parts = append(parts, fitWarnings(f.Results)...)
	parts = append(parts, paragraph("A record tells of the drives in it. Whether those to be bought will be like them, it cannot tell."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// ratesTable returns the table of annual failure rates and Weibull fits.
func ratesTable(results []fit.Result) string {
	columns := []column{{"drives", 18}, {"number", 0}, {"failures", 0}, {"drive-days", 0}, {"% failing\na year (95 %)", 0},
		{"Weibull\nshape (95 %)", 0}, {"Weibull scale\nhours (95 %)", 0}, {"p, rate\nconstant", 0}}
	var rows [][]string
	for _, r := range results {
		row := []string{plain(r.Label), "-", typed(figure.Whole(r.Failures)), typed(figure.Whole(r.DriveDays)), percent(r.AFR, "\n%s"), "-", "-", "-"}
		if r.Drives != nil {
			row[1] = whole(*r.Drives)
		}
		if w := r.Weibull; w != nil {
			row[5], row[6], row[7] = bounded(w.Shape), bounded(w.Scale), typed(figure.Significance(*r.LikelihoodRatioP))
		}
		rows = append(rows, row)
	}
	return layOut(columns, rows)
}

// ageTable returns the table of rates by year of age.
func ageTable(results []fit.Result) string {
	var rows [][]string
	for _, r := range results {
		name := plain(r.Label)
		for _, y := range r.ByYear {
			rows = append(rows, []string{name, fmt.Sprint(y.Year), typed(figure.Whole(y.Failures)), typed(figure.Whole(y.DriveDays)), percent(y.AFR, " (%s)")})
			name = ""
		}
	}
	if rows == nil {
		return paragraph("No rate by year of age: the record does not give it.")
	}
	return layOut([]column{{"drives", 18}, {"year\nof age", 0}, {"failures", 0}, {"drive-days", 0}, {"% failing a year (95 %)", 0}}, rows)
}

// crossings returns the table of the ages at which the rates of the laws pass 5 % and
// 10 % a year, of those that do, and what is to be said of it.
func crossings(results []fit.Result) []string {
	columns := []column{{"drives", 18}}
	for _, rate := range fit.CrossedRates {
		columns = append(columns, column{fmt.Sprintf("%s %% a year passed at\nan age of, years (95 %%)", figure.Exact(100*rate)), 0})
	}
	var rows [][]string
	guessed, falling := false, false
	for _, r := range results {
		if r.Crossings == nil {
			continue
		}
		row := []string{plain(r.Label)}
		for _, c := range r.Crossings {
			row = append(row, crossing(c))
			guessed, falling = guessed || !c.Seen, falling || !c.Rising
		}
		rows = append(rows, row)
	}
	if rows == nil {
		return []string{paragraph("At what age 5 %% or 10 %% of the drives fail a year the record does not tell: no rate in it is found to change with age.")}
	}
	parts := []string{layOut(columns, rows)}
	if guessed {
		parts = append(parts, paragraph("* outside of the ages that the record tells of: a guess by the law"))
	}
	if falling {
		parts = append(parts, paragraph("below: the rate falls with age, and is below that from then on"))
	}
	return parts
}

// crossing returns one age with its interval.
func crossing(c fit.Crossing) string {
	years, ever := c.Years()
	if !ever {
		return fmt.Sprintf("not within %d", fit.MostYears)
	}
	value, interval := figure.Bounded(years)
	if !c.Rising {
		value = "below: " + value
	}
	if !c.Seen {
		value += " *"
	}
	return typed(value + "\n" + interval)
}

// lives returns the lines to paste, which are never wrapped.
func lives(results []fit.Result) string {
	var b strings.Builder
	for _, r := range results {
		if r.Life != nil {
			fmt.Fprintf(&b, "life = %s  # %s\n", r.Life.SiteFile(), plain(r.Label))
		}
	}
	return b.String()
}

// fitWarnings returns each warning once, with the labels that it is about.
func fitWarnings(results []fit.Result) []string {
	var texts []string
	labels := map[string][]string{}
	for _, r := range results {
		for _, text := range r.Warnings {
			if labels[text] == nil {
				texts = append(texts, text)
			}
			labels[text] = append(labels[text], plain(r.Label))
		}
	}
	const most = 5
	var notes []string
	for _, text := range texts {
		of := labels[text]
		named := strings.Join(of[:min(most, len(of))], ", ")
		if len(of) > most {
			named += fmt.Sprintf(" and %d more", len(of)-most)
		}
		notes = append(notes, paragraph("! %s: %s", named, text))
	}
	return notes
}

// percent returns a rate in per cent, and its interval in the given format.
func percent(e estimate.Estimate, format string) string {
	p := estimate.Estimate{Value: 100 * e.Value, Low: 100 * e.Low, High: 100 * e.High}
	return typed(figure.Number(p) + fmt.Sprintf(format, figure.Interval(p)))
}

// bounded returns a figure whose interval may lack an end, the interval beneath.
func bounded(e estimate.Estimate) string {
	value, interval := figure.Bounded(e)
	return typed(value + "\n" + interval)
}
