package vary

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// mostHeats bounds the maps of a page: those of the safest choices as the site
// file has them.
const mostHeats = 8

// shown returns the places of the choices that get a map: of those on which the inputs
// bear.
func (v sweep) shown() []int {
	var touched []int
	for i, c := range v.Curves {
		if !c.Untouched() {
			touched = append(touched, i)
		}
	}
	least := page.Least(len(touched), mostHeats, func(i int) float64 {
		if e := v.Curves[touched[i]].Own; draw.Known(e) {
			return e.Value
		}
		return math.Inf(1) // not known to be safe
	})
	for k, i := range least {
		least[k] = touched[i]
	}
	return least
}

// ranges says of each choice where over all pairs its chance is least and greatest.
func (v sweep) ranges() []string {
	var out []string
	for i, m := range v.marks() {
		if v.Curves[i].Untouched() {
			out = append(out, fmt.Sprintf("%s: %s at every pair of values; the inputs do not bear on it.", m.Brief(), figure.Odds(v.Curves[i].Points[0].Loss)))
			continue
		}
		least, most := -1, -1
		points := v.Curves[i].Points
		for at, p := range points {
			if p.Absent != "" || !draw.Known(p.Loss) {
				continue
			}
			if least < 0 || p.Loss.Value < points[least].Loss.Value {
				least = at
			}
			if most < 0 || p.Loss.Value > points[most].Loss.Value {
				most = at
			}
		}
		if least < 0 {
			out = append(out, fmt.Sprintf("%s: there are no figures.", m.Brief()))
			continue
		}
		out = append(out, fmt.Sprintf("%s: %s at %s, %s at %s; as the site file has it, %s.", m.Brief(),
			figure.Odds(points[least].Loss), v.valueText(least), figure.Odds(points[most].Loss), v.valueText(most), figure.Odds(v.Curves[i].Own)))
	}
	return out
}

// corners returns the places of the ends of both inputs.
func (v sweep) corners() (places []int) {
	n, m := len(v.Inputs[0].Texts), len(v.Inputs[1].Texts)
	for _, at := range []int{0, n - 1, (m - 1) * n, m*n - 1} {
		if !slices.Contains(places, at) {
			places = append(places, at)
		}
	}
	return places
}

// cornersTable returns the ends of both inputs, and the choice as it stands.
func (v sweep) cornersTable() page.Table {
	n, corners := len(v.Inputs[0].Texts), v.corners()
	t := page.Table{Title: "Chance of losing footage at the ends of both inputs", Intro: "Odds of a loss in " + page.ServiceLife(v.Site) + ", with the 95 % interval below.",
		Columns: []page.Column{{Name: "As the site file has it"}}}
	for _, at := range corners {
		t.Columns = append(t.Columns, page.Column{Name: label.Cut(v.Inputs[0].Texts[at%n], mostHead), Unit: "with " + label.Cut(v.Inputs[1].Texts[at/n], mostHead)})
	}
	for i, mark := range v.marks() {
		r := page.Row{Mark: mark, Cells: []page.Cell{page.ChanceCell(v.Curves[i].Own)}, Warnings: v.warningsOf(i)}
		for _, at := range corners {
			p := v.Curves[i].Points[at]
			switch {
			case p.Absent != "":
				r.Cells = append(r.Cells, page.Cell{Main: "none", Sub: label.OneLine(p.Absent)})
			default:
				r.Cells = append(r.Cells, fallingShort(page.ChanceCell(p.Loss), p))
			}
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

// cornersAgainst returns the ratios to the choice held against at the ends of both inputs.
func (v sweep) cornersAgainst(t page.Table) page.Table {
	t.Title = "Beside " + label.Short(v.Against) + " at the ends of both inputs"
	t.Intro = "The loss chance ÷ that of the choice held against, at the same pair of values, with the interval of the ratio from shared random streams below."
	t.Columns = t.Columns[1:]
	corners := v.corners()
	t.Rows = nil
	for i, mark := range v.marks() {
		r := page.Row{Mark: mark}
		for _, at := range corners {
			p := v.Curves[i].Points[at]
			if p.Absent != "" {
				r.Cells = append(r.Cells, page.Cell{Main: "none", Sub: label.OneLine(p.Absent)})
				continue
			}
			r.Cells = append(r.Cells, againstCell(p, i == v.against()))
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

// againstWords says of each choice where over all pairs it is safer beyond doubt than the
// one held against, and by how much.
func (v sweep) againstWords() (out []string) {
	held := v.against()
	if held < 0 {
		return nil
	}
	name := v.marks()[held].Brief()
	for i, m := range v.marks() {
		if i == held {
			continue
		}
		safer, riskier, known := 0, 0, 0
		least, most := math.Inf(1), 0.0
		for _, p := range v.Curves[i].Points {
			if p.Absent != "" || !draw.Known(p.Against) {
				continue
			}
			known++
			least, most = math.Min(least, p.Against.Value), math.Max(most, p.Against.Value)
			switch {
			case p.Against.High < 1:
				safer++
			case p.Against.Low > 1:
				riskier++
			}
		}
		if known == 0 {
			out = append(out, fmt.Sprintf("How %s stands beside %s is not known at any pair of values.", m.Brief(), name))
			continue
		}
		out = append(out, fmt.Sprintf("Held against %s, %s is safer beyond doubt at %d of %s and riskier at %d: from %s to %s times as likely to lose footage.",
			name, m.Brief(), safer, figure.Count(known, "pair of values", "pairs of values"), riskier, figure.Exact(rounded(least)), figure.Exact(rounded(most))))
	}
	return out
}

// rounded returns a ratio to two digits, for words.
func rounded(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return x
	}
	scale := math.Pow(10, 1-math.Floor(math.Log10(x)))
	return math.Round(x*scale) / scale
}

// mostHead is the letters that the head of a column has room for.
const mostHead = 20

// pairsTable returns the table of every pair of values.
func (v sweep) pairsTable() page.Table {
	return v.listTable("Every pair of values", "A loss in "+page.ServiceLife(v.Site), "odds and 95 % interval",
		"", func(p study.Point) string {
			text := page.OddsText(p.Loss)
			if draw.Known(p.Against) {
				text += ", " + timesText(p.Against) + " as likely as in " + label.Short(v.Against)
			}
			if !p.Meets {
				text += ", " + fallsShort
			}
			return text
		})
}

const fallsShort = "does not hold the footage"

// fallingShort adds to a cell that its choice does not hold the footage.
func fallingShort(c page.Cell, p study.Point) page.Cell {
	switch {
	case p.Meets:
	case c.Sub == "":
		c.Sub = fallsShort
	default:
		c.Sub += "; " + fallsShort
	}
	return c
}

// vague reports whether a chance is known worse than its colour looks.
func vague(p study.Point) bool {
	const most = 0.25 // half-width ÷ value
	return p.Loss.Value > 0 && !((p.Loss.High-p.Loss.Low)/2 <= most*p.Loss.Value)
}

// span returns the least and the greatest loss chance of all that is drawn, as decimal
// logarithms; false where there is none.
func (v sweep) span() (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range v.shown() {
		for _, p := range v.Curves[c].Points {
			if p.Absent == "" && draw.Drawable(p.Loss) {
				low, high = math.Min(low, draw.Log10(p.Loss.Value)), math.Max(high, draw.Log10(p.Loss.Value))
			}
		}
	}
	return low, high, !math.IsInf(low, 1)
}

// contourLevels returns the chances, as decimal logarithms, at which lines are drawn:
// powers of ten, fewer where there would be many, and 2 and 5 times them where
// there would be next to none.
func contourLevels(low, high float64) []float64 {
	const most = 8
	within := func(x float64) bool { return x > low && x < high }
	if high-low < 1.5 {
		var all []float64
		for e := math.Floor(low); e <= high; e++ {
			for _, d := range []float64{1, 2, 5} {
				if x := draw.Round(e + math.Log10(d)); within(x) {
					all = append(all, x)
				}
			}
		}
		return all
	}
	for step := 1.0; ; step++ {
		var all []float64
		for e := 0.0; e > low; e -= step {
			if within(e) {
				all = append(all, e)
			}
		}
		if len(all) <= most {
			return all
		}
	}
}
