package print

import (
	"io"
	"math"
	"strings"

	"arrayodds/array"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// Columns that the value and the drives of a point take.
const valueWide, drivesWide = 10, 8

// mostValues is how many values of a range the table shows; the page has all.
const mostValues = 3

// Vary writes each choice at some values of the input, or at the corners of two
// inputs, and the break-even values.
func Vary(w io.Writer, v study.Sweep) error {
	parts := []string{rewrapped(title(v.Site))}
	var varied []array.Choice
	for _, c := range v.Curves {
		varied = append(varied, c.Choice)
	}
	parts = append(parts, updates(narrowColumns, v.Site, varied...)...)
	for _, in := range v.Inputs {
		parts = append(parts, input(in))
	}
	places, all := shownPlaces(v.Inputs)
	head := "both\nvalues"
	if len(v.Inputs) == 1 {
		head = "value"
	}
	columns := []column{{head, valueWide}, {"drives", drivesWide}, {"chance of loss in\n" + years(v.Site.ServiceLife) + " (95 %)", 0}, {"times the file's\nown (95 %)", 0}}
	if v.Against != "" { // the page has both
		columns[len(columns)-1].title = "times the one held\nagainst (95 %)"
	}
	var curves []headed
	short := false
	for _, c := range v.Curves {
		h := headed{head: plain(c.Choice.Label)}
		places, untouched := places, c.Untouched()
		if untouched && v.Against == "" {
			places = places[:1]
		}
		for _, at := range places {
			var values []string
			for i, in := range v.Inputs {
				values = append(values, plain(in.Texts[v.ValueAt(i, at)]))
			}
			if untouched && v.Against == "" {
				values = []string{"every one"}
			}
			p := c.Points[at]
			short = short || p.Absent == "" && !p.Meets
			h.rows = append(h.rows, append([]string{strings.Join(values, "\n")}, pointCells(p, v.Against != "")...))
		}
		curves = append(curves, h)
	}
	parts = append(parts, layOutHeaded(columns, curves))
	if short {
		parts = append(parts, narrow("* does not hold the footage%s.", toGrow(v.Site)))
	}
	if !all {
		parts = append(parts, narrow("The page has every value."))
	}
	if v.Against != "" {
		parts = append(parts, narrow("Held against: %s, at the same value.", plain(v.Against)))
	}
	if v.BreakEven != nil {
		parts = append(parts, breakEven(*v.BreakEven, v.Inputs[0]))
	}
	parts = append(parts, absences(v)...)
	for _, n := range v.Notes {
		parts = append(parts, narrow("%s", plain(n)))
	}
	parts = append(parts, narrow("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// input says which input is varied, and over which values.
func input(in study.Input) string {
	values := plain(strings.Join(in.Texts, ", "))
	if in.Values != nil && len(in.Texts) > mostValues {
		values = plain(in.Texts[0]) + " to " + plain(in.Texts[len(in.Texts)-1])
	}
	name := kept(in.Path)
	if in.Called != "" {
		name = figure.Capital(plain(in.Called)) + " (" + name + ")"
	}
	own := "the site file has " + plain(in.OwnText)
	if strings.HasPrefix(in.OwnText, "differs from ") {
		own = "in the site file it " + plain(in.OwnText)
	} else if or, left := strings.CutPrefix(in.OwnText, "not given: "); left {
		own = "the site file leaves it out: " + plain(or)
	}
	return narrow("%s: %s; %s", name, values, own)
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
func pointCells(p study.Point, against bool) []string {
	drives := whole(p.Drives)
	if p.Absent == "" && !p.Meets {
		drives += " *"
	}
	if p.Groups > 1 {
		drives += typed(" in " + figure.Count(p.Groups, "group", "groups"))
	}
	cells := []string{drives, "-", "-"}
	if p.Absent == "" {
		loss := odds(p.Loss)
		if len(p.Warnings) > 0 {
			loss = "! " + loss
		}
		cells = []string{drives, loss, ratio(p.ToOwn)}
	}
	if against {
		cells[2] = ratio(p.Against)
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
			notes = append(notes, narrow("%s: no figures at %d of %d values: %s.", plain(c.Choice.Label), seen[why], len(c.Points), plain(why)))
		}
	}
	return notes
}

// breakEven returns the table of the values that meet the goal.
func breakEven(b study.BreakEven, in study.Input) string {
	head := "value"
	if in.Unit != "" {
		head += ", " + in.Unit
	}
	var parts []headed
	for _, r := range b.Rows {
		value := "-"
		if !math.IsNaN(r.Value.Value) {
			value = ratio(r.Value)
		}
		parts = append(parts, headed{plain(r.Choice.Label), [][]string{{value, typed(plain(r.Words))}}})
	}
	over := plain(in.Path)
	if in.Called != "" {
		over = "the " + plain(in.Called)
	}
	what := "for"
	if strings.HasPrefix(b.Goal, "as ") {
		what = "to be"
	}
	return narrow("What it takes %s %s, as a value of %s:", what, plain(b.Goal), over) + "\n" +
		layOutHeaded([]column{{head + "\n(95 %)", 0}, {"", wordsWide}}, parts)
}

// wordsWide is the columns for the words of a value that breaks even.
const wordsWide = 40
