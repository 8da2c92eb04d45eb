package print

import (
	"io"
	"math"
	"slices"
	"strings"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// mostValues is how many values of a range the table shows; the page has all.
const mostValues = 3

// Vary writes each choice at some values of the input, or at the corners of two
// inputs, and the break-even values.
func Vary(w io.Writer, v study.Sweep) error {
	parts := []string{title(v.Site)}
	for _, in := range v.Inputs {
		parts = append(parts, input(in))
	}
	places, all := shownPlaces(v.Inputs)
	columns := []column{{"choice", 18}}
	head := "with both\ninputs at"
	if len(v.Inputs) == 1 {
		head = plain(shortPath(v.Inputs[0].Path))
	}
	columns = append(columns, column{head, 0}, column{"drives", 0})
	cameras := len(v.Site.Cameras) > 0
	if cameras {
		columns = append(columns, column{"meets\ndemand", 0})
	}
	columns = append(columns, column{"chance of loss in\n" + years(v.Site.ServiceLife) + " (95 %)", 0}, column{"times the\nfile's own (95 %)", 0})
	if v.Against != "" { // the page has both
		columns[len(columns)-1].title = "times the one\nheld against (95 %)"
	}
	var rows [][]string
	for _, c := range v.Curves {
		label := plain(c.Choice.Label)
		for _, at := range places {
			row := []string{label}
			label = ""
			var values []string
			for i, in := range v.Inputs {
				values = append(values, plain(in.Texts[v.ValueAt(i, at)]))
			}
			row = append(row, strings.Join(values, "\n"))
			row = append(row, pointCells(c.Points[at], v.Against != "", cameras)...)
			rows = append(rows, row)
		}
	}
	parts = append(parts, layOut(columns, rows))
	if !all {
		parts = append(parts, paragraph("The page has every value."))
	}
	if v.Against != "" {
		parts = append(parts, paragraph("Held against: %s, at the same value.", plain(v.Against)))
	}
	if v.BreakEven != nil {
		parts = append(parts, breakEven(*v.BreakEven, v.Inputs[0]))
	}
	parts = append(parts, absences(v)...)
	for _, n := range v.Notes {
		parts = append(parts, paragraph("%s", plain(n)))
	}
	parts = append(parts, paragraph("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// input says which input is varied, and over which values.
func input(in study.Input) string {
	values := plain(strings.Join(in.Texts, ", "))
	if in.Values != nil && len(in.Texts) > mostValues {
		values = plain(in.Texts[0]) + " to " + plain(in.Texts[len(in.Texts)-1])
	}
	if strings.HasPrefix(in.OwnText, "differs from ") {
		return paragraph("%s: %s; in the site file it %s", plain(in.Path), values, plain(in.OwnText))
	}
	if or, left := strings.CutPrefix(in.OwnText, "not given: "); left {
		return paragraph("%s: %s; the site file leaves it out: %s", plain(in.Path), values, plain(or))
	}
	return paragraph("%s: %s; the site file has %s", plain(in.Path), values, plain(in.OwnText))
}

// shortPath returns the end of a path, as much as a column has room for.
func shortPath(path string) string {
	const room = 18
	if r := []rune(path); len(r) > room {
		return "…" + string(r[len(r)-room+1:])
	}
	return path
}

// shownPlaces returns the points that the table shows: some values of one input, all
// where they are words or few, or the corners of two inputs. all reports whether
// these are all points.
func shownPlaces(inputs []study.Input) (places []int, all bool) {
	n := len(inputs[0].Texts)
	if len(inputs) > 1 {
		m := len(inputs[1].Texts)
		seen := map[int]bool{}
		for _, at := range []int{0, n - 1, (m - 1) * n, m*n - 1} {
			if !seen[at] {
				seen[at] = true
				places = append(places, at)
			}
		}
		return places, n*m == len(places)
	}
	if inputs[0].Values == nil || n <= mostValues {
		for i := range n {
			places = append(places, i)
		}
		return places, true
	}
	for i := range mostValues {
		places = append(places, i*(n-1)/(mostValues-1))
	}
	return places, false
}

// pointCells returns the cells of one point, right of its values.
func pointCells(p study.Point, against, cameras bool) []string {
	cells := []string{whole(p.Drives), "-", "-", "-"}
	if p.Absent == "" {
		loss := odds(p.Loss)
		if len(p.Warnings) > 0 {
			loss = "! " + loss
		}
		cells = []string{whole(p.Drives), yes(p.Meets), loss, ratio(p.ToOwn)}
	}
	if against {
		cells[3] = ratio(p.Against)
	}
	if !cameras {
		cells = slices.Delete(cells, 1, 2)
	}
	return cells
}

// ratio returns a ratio and its interval beneath, "-" where there is none.
func ratio(e estimate.Estimate) string {
	switch {
	case math.IsNaN(e.Value):
		return "-"
	case math.IsInf(e.High, 1) || math.IsInf(e.Value, 1):
		return "not known"
	case e.Low == e.High:
		return typed(figure.Exact(e.Value))
	}
	return typed(figure.Number(e)) + "\n" + compact(figure.Interval(e))
}

// absences says of each choice why points have no figures, each reason once.
func absences(v study.Sweep) []string {
	var notes []string
	for _, c := range v.Curves {
		seen := map[string]int{}
		var order []string
		for _, p := range c.Points {
			if p.Absent != "" {
				if seen[p.Absent]++; seen[p.Absent] == 1 {
					order = append(order, p.Absent)
				}
			}
		}
		for _, why := range order {
			notes = append(notes, paragraph("%s: no figures at %d of %d values: %s.", plain(c.Choice.Label), seen[why], len(c.Points), plain(why)))
		}
	}
	return notes
}

// breakEven returns the table of the values that meet the goal.
func breakEven(b study.BreakEven, in study.Input) string {
	head := plain(shortPath(in.Path)) + "\n"
	if in.Unit != "" {
		head += in.Unit + " "
	}
	var rows [][]string
	for _, r := range b.Rows {
		value := "-"
		if !math.IsNaN(r.Value.Value) {
			value = ratio(r.Value)
		}
		rows = append(rows, []string{plain(r.Choice.Label), value, typed(plain(r.Words))})
	}
	what := "for"
	if strings.HasPrefix(b.Goal, "as ") {
		what = "to be"
	}
	return paragraph("What it takes %s %s:", what, typed(plain(b.Goal))) + "\n" +
		layOut([]column{{"choice", 26}, {head + "(95 %)", 0}, {"", 46}}, rows)
}
