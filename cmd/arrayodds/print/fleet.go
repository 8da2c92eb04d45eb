package print

import (
	"fmt"
	"io"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/fleet"
)

const (
	mostVisits = 20 // arrays that are listed
	mostModels = 12 // models of drives
)

// Fleet writes how a fleet stands, where to go first, and what the next year brings.
func Fleet(w io.Writer, r fleet.Result) error {
	parts := []string{paragraph("%s: %s.", plain(r.Name), r.Count()) + paragraph("%s", r.Headline())}
	points := ""
	for _, p := range r.Points() {
		points += paragraph("- %s", p)
	}
	parts = append(parts, points, visits(&r), models(&r))
	for _, n := range r.Notes {
		parts = append(parts, paragraph("%s", plain(n)))
	}
	parts = append(parts, paragraph("%s", fleet.Cautions()[0])+paragraph("RAID is no backup; what a lost array still holds is a matter for a specialist."))
	_, err := io.WriteString(w, typed(strings.Join(parts, "\n")))
	return err
}

// visits lists where to go first.
func visits(r *fleet.Result) string {
	n := r.Listed(mostVisits)
	head := "Where to go first:\n"
	if r.Lost+r.Degraded == 0 {
		head = "Nothing is to be done tonight. A loss is likeliest in:\n"
	}
	columns := []column{{"", 4}, {"array", 22}, {"how it stands", 17}, {"chance of loss\nwithin 30 days", 0}, {"with that\ndone", 0}, {"do first", 20}}
	var rows [][]string
	tied := false
	for i := range r.Arrays[:n] {
		s := &r.Arrays[i]
		number := fmt.Sprint(i + 1)
		if s.Tied {
			number, tied = "≈ "+number, true
		}
		loss, left := odds(s.Loss), ""
		if s.Lost() {
			loss = "lost"
		} else if s.Best != nil {
			left = figure.Odds(s.Best.Loss)
		}
		rows = append(rows, []string{number, plain(s.Name), s.Stands(), loss, left, plain(s.Advice)})
	}
	text := head + layOut(columns, rows)
	if more := r.Lost + r.Degraded - n; more > 0 {
		text += paragraph("And %s more with drives down: the page has more of them, --csv, --xlsx and --json have all.", figure.Whole(float64(more)))
	}
	if tied {
		text += paragraph("%s", fleet.TiedNote)
	}
	if n := unsure(r); n > 0 {
		text += paragraph("! The interval of %s rests on few samples: the files say which.", figure.Count(n, "array", "arrays"))
	}
	return text
}

// unsure returns how many arrays have a warning.
func unsure(r *fleet.Result) (n int) {
	for i := range r.Arrays {
		if len(r.Arrays[i].Warnings) > 0 {
			n++
		}
	}
	return n
}

// models lists the models of drives.
func models(r *fleet.Result) string {
	columns := []column{{"drives", 28}, {"arrays", 0}, {"drives", 0}, {"fail within\na year", 0}, {"at most\n(95 %)", 0}, {"wanted\nnow", 0}, {"to have\nfor a year", 0}}
	row := func(name string, arrays int, y *fleet.Year) []string {
		failures := figure.Number(y.Failures) + "\n" + compact(figure.Interval(y.Failures))
		if y.Failures.Value == 0 {
			failures = "not seen"
		}
		return []string{name, whole(arrays), whole(y.Drives), failures, figure.Whole(y.Most.Value), whole(y.Owed), figure.Whole(y.Most.Value + float64(y.Owed))}
	}
	var rows [][]string
	for i := range r.Models[:min(len(r.Models), mostModels)] {
		m := &r.Models[i]
		rows = append(rows, row(plain(m.ModelName()), m.Arrays, &m.Year))
	}
	if len(r.Models) > 1 {
		rows = append(rows, row("all", len(r.Arrays), &r.Year))
	}
	text := "The next year:\n" + layOut(columns, rows)
	switch alone, summed := r.MoreModels(mostModels); {
	case summed > 0:
		text += paragraph("And %s: the page has more of them, --xlsx and --json have %s by themselves.", figure.Count(alone+summed, "more model", "more models"), whole(len(r.Models)-1))
	case alone > 0:
		text += paragraph("And %s: the page has more of them, --xlsx and --json have all.", figure.Count(alone, "more model", "more models"))
	}
	return text
}
