package export

import (
	"fmt"
	"strconv"

	"arrayodds/array/unit"
	"arrayodds/sim/study"
)

// Widths of the workbook's columns, in characters of its default font.
const (
	wideWords = 34
	longWords = 100
	figure    = 16
)

// choicesTable has the columns of the CSV, titled in words.
func choicesTable(r study.Comparison) table {
	all := columns(r.Site)
	var t table
	for _, c := range all {
		h := head{c.title, c.form, figure}
		switch c.name {
		case "choice", "drive":
			h.width = wideWords
		case "warnings":
			h.width = longWords
		}
		t.heads = append(t.heads, h)
	}
	for _, o := range r.Outcomes {
		row := make([]any, len(all))
		for i, c := range all {
			row[i] = c.value(o)
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// curveTable has one row for each choice and year.
func curveTable(r study.Comparison) table {
	t := table{heads: []head{
		{"Choice", words, wideWords},
		{"Years of service", hundred, figure},
		{"Chance of losing a group by then", chance, figure},
		{"95 % low", chance, figure},
		{"95 % high", chance, figure},
	}}
	for _, o := range r.Outcomes {
		for _, p := range o.Result.LossCurve {
			t.rows = append(t.rows, []any{o.Choice.Label, p.Years, p.Value, p.Low, p.High})
		}
	}
	return t
}

func assumptionsTable(r study.Comparison) table {
	t := table{heads: []head{
		{"Key", words, wideWords},
		{"Taken as", words, longWords},
		{"Where from", words, figure},
	}}
	for _, a := range r.Assumptions {
		from := "site file"
		if a.Default {
			from = "default"
		}
		t.rows = append(t.rows, []any{a.Path, a.Text, from})
	}
	return t
}

func aboutTable(r study.Comparison) table {
	method := "life by life with forced branching"
	if r.Plain {
		method = "life by life, event by event (plain)"
	}
	t := table{
		heads: []head{{"About this workbook", words, wideWords}, {"", words, longWords}},
		rows: [][]any{
			{"Site", r.Site.Name},
			{"Service life", fmt.Sprintf("%.4g years of %d h", r.Site.ServiceLife/unit.HoursPerYear, unit.HoursPerYear)},
			{"Simulated", method},
			{"Seed", strconv.FormatUint(r.Seed, 10)},
			{"Accuracy asked for", fmt.Sprintf("%.3g %% (half of the 95 %% interval of the loss chance ÷ the loss chance)", 100*r.Accuracy)},
			{"Intervals", "Low and high are the ends of the 95 % interval of the simulation. It says how well the simulation knows its own answer, not how well the assumptions fit the site."},
		},
	}
	for _, c := range study.Cautions(r.Site, r.Choices(), r.Plain) {
		t.rows = append(t.rows, []any{"Caution", c})
	}
	return t
}
