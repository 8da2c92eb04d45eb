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

// shown returns the places of the choices that get a map.
func (v sweep) shown() []int {
	return page.Least(len(v.Curves), mostHeats, func(i int) float64 {
		if e := v.Curves[i].Own; draw.Known(e) {
			return e.Value
		}
		return math.Inf(1) // not known to be safe
	})
}

// ranges says of each choice where over all pairs its chance is least and greatest.
func (v sweep) ranges() []string {
	var out []string
	for i, m := range v.marks() {
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

// cornersTable returns the ends of both inputs, and the choice as it stands.
func (v sweep) cornersTable() page.Table {
	n, m := len(v.Inputs[0].Texts), len(v.Inputs[1].Texts)
	var corners []int
	for _, at := range []int{0, n - 1, (m - 1) * n, m*n - 1} {
		if !slices.Contains(corners, at) {
			corners = append(corners, at)
		}
	}
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

// mostHead is the letters that the head of a column has room for.
const mostHead = 20

// pairsTable returns the table of every pair of values.
func (v sweep) pairsTable() page.Table {
	return v.listTable("Every pair of values", "A loss in "+page.ServiceLife(v.Site), "odds and 95 % interval",
		"", func(p study.Point) string {
			if !p.Meets {
				return page.OddsText(p.Loss) + ", " + fallsShort
			}
			return page.OddsText(p.Loss)
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
