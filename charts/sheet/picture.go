package sheet

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// picture is the chance of each choice on a scale of powers of ten, a row each.
type picture struct {
	Axis   string // what is drawn
	Figure string // the head of the column beside it
	Prices string // the head of the last column
	Rows   []row
	Ticks  []tick
	Goal   *tick
	Notes  []string
}

// row is one choice.
type row struct {
	Mark   draw.Mark
	Best   bool
	Plot   template.HTML
	InAll  string
	Spread string
	Price  string
	Short  string // why it is out of the question; empty: it is not
}

// tick is a word at a place of the axis.
type tick struct {
	At   string // in per cent of the width
	Text string
	Long bool // not shown where there is little room
}

// mostRows is what the page has room for.
const mostRows = 8

func (s sheet) picture() picture {
	places := s.shown()
	axis, goal := s.axis(places)
	p := picture{
		Axis:   fmt.Sprintf("chance of loss in %s, each line %s times the last", page.ServiceLife(s.Site), figure.Whole(math.Pow10(axis.Step))),
		Figure: "in all, and its spread",
		Prices: "to buy",
		Ticks:  axis.ticks(),
	}
	if !s.uncertain() {
		p.Figure = "as entered, and its interval"
	}
	switch {
	case !s.priced():
		p.Prices = "drives"
	case s.Site.Currency != "":
		p.Prices += ", " + s.Site.Currency
	}
	if goal > 0 {
		p.Goal = &tick{At: axis.place(goal), Text: "goal: " + figure.Chance(goal)}
	}
	for _, i := range places {
		p.Rows = append(p.Rows, s.row(i, axis, goal))
	}
	p.Notes = s.pictureNotes(len(places))
	return p
}

// shown returns the places of the choices that are drawn, safest first: all of them, or
// those beside what is recommended.
func (s sheet) shown() []int {
	order := s.said.Order
	if len(order) <= mostRows {
		return order
	}
	rank := func(place int) int { return slices.Index(order, place) }
	center := 0
	keep := map[int]bool{}
	for n, i := range s.said.Compared {
		if n == 0 {
			center = rank(i)
		}
		keep[rank(i)] = true
	}
	for away := 0; len(keep) < mostRows; away++ {
		for _, at := range []int{center - away, center + away} {
			if at >= 0 && at < len(order) && len(keep) < mostRows {
				keep[at] = true
			}
		}
	}
	var places []int
	for at, i := range order {
		if keep[at] {
			places = append(places, i)
		}
	}
	return places
}

// uncertain reports whether the chances are those over the doubt about the inputs.
func (s sheet) uncertain() bool { return s.Doubt != nil && s.Doubt.Settings > 0 }

func (s sheet) priced() bool {
	return slices.ContainsFunc(s.Outcomes, func(o study.Outcome) bool { return !math.IsNaN(o.Sizing.Purchase) })
}

// spread returns the chance of a choice to reckon with, between the ends of what it may
// be.
func (s sheet) spread(o study.Outcome) estimate.Estimate {
	if s.uncertain() && o.Doubt != nil && o.Doubt.High > 0 {
		return estimate.Estimate{Value: answer.Risk(o).Value, Low: o.Doubt.Low, High: o.Doubt.High}
	}
	return o.Result.LossChance
}

func (s sheet) row(i int, axis axis, goal float64) row {
	o, said := s.Outcomes[i], s.said.Choices[i]
	r := row{Mark: s.mark(i), Best: i == s.said.Recommended, InAll: said.InAll, Spread: said.Spread, Price: figure.Whole(float64(o.Bought()))}
	if r.Spread == "" && o.Simulated() && o.Result.LossChance.High > o.Result.LossChance.Low {
		r.Spread = figure.OddsInterval(answer.Rough(o.Result.LossChance))
	}
	if s.priced() {
		r.Price = "no price"
	}
	if sum := o.Sizing.Purchase; !math.IsNaN(sum) {
		r.Price = figure.Whole(sum)
	}
	switch {
	case !o.Simulated():
		r.InAll, r.Short = said.Class, "too busy to be simulated"
	case !o.Sizing.Meets:
		r.Short = "holds too little"
	}
	r.InAll, r.Spread = page.Unbroken(r.InAll), page.Unbroken(r.Spread)
	r.Plot = axis.plot(s.spread(o), r.Mark.Symbol, goal, strings.TrimSuffix(r.InAll+", "+r.Spread, ", "))
	return r
}

func (s sheet) pictureNotes(shown int) []string {
	text := "Point: the chance in all, over everything that is uncertain of the inputs. Line through it: its spread, 5 to 95 % of the settings that were tried."
	if !s.uncertain() {
		text = "Point: the chance as entered. Line through it: the 95 % interval of the simulation, without the doubt about the inputs."
	}
	notes := []string{text, "Loss: at least once a whole group of drives is lost, with all the footage on it; without redundancy, any drive."}
	if left := len(s.Outcomes) - shown; left > 0 {
		notes = append(notes, fmt.Sprintf("Left out here: %s of %s. The report has them all.", figure.Whole(float64(left)), figure.Count(len(s.Outcomes), "choice", "choices")))
	}
	for _, i := range s.said.Compared {
		if w := s.Outcomes[i].Result.Warnings; len(w) > 0 {
			notes = append(notes, label.Cut(fmt.Sprintf("Warning for %d: %s", i+1, w[0]), 110)+".")
		}
	}
	return notes
}

// axis is a scale of powers of ten across the width of a plot.
type axis draw.LogAxis

// axis returns the scale that holds all rows, and the goal where there is one; else 0.
func (s sheet) axis(places []int) (axis, float64) {
	var all []estimate.Estimate
	for _, i := range places {
		e := s.spread(s.Outcomes[i])
		if draw.Known(e) {
			e.Low, e.High = math.Min(e.Low, e.Value), math.Max(e.High, e.Value)
			all = append(all, e)
		}
	}
	goal := 0.0
	if g := s.Site.Goal; g != nil && len(all) > 0 {
		goal = g.LossChance
		all = append(all, estimate.Exact(goal))
	}
	return axis(draw.NewLogAxis(all)), goal
}

// margin is how much of the width is left free at either end, in per cent.
const margin = 3

// at returns the place of a power of ten, in per cent of the width.
func (a axis) at(power float64) string {
	share := (power - float64(a.Min)) / float64(a.Max-a.Min)
	x := margin + (100-2*margin)*math.Min(1, math.Max(0, share))
	return strconv.FormatFloat(math.Round(100*x)/100, 'f', -1, 64)
}

// place returns the place of a chance above 0.
func (a axis) place(p float64) string { return a.at(math.Log10(p)) }

// ticks returns the words at the powers of ten that there is room for.
func (a axis) ticks() (all []tick) {
	const roomy = 5
	every := 1
	if n := (a.Max-a.Min)/a.Step + 1; n > roomy {
		every = (n + 3) / 4
	}
	for n, power := 0, a.Max; power >= a.Min; n, power = n+1, power-a.Step {
		if n%every != 0 {
			continue
		}
		text := figure.Chance(math.Pow(10, float64(power)))
		switch power {
		case 0:
			text = "certain"
		case -1:
			text = "1 in 10" // as the others
		}
		all = append(all, tick{At: a.at(float64(power)), Text: text, Long: n/every%2 == 1})
	}
	slices.Reverse(all)
	return all
}

// plot draws one row: the lines of the scale, the goal, and a point with its spread.
// alt is said in its place. Shapes stand at their places in per cent and keep their size.
func (a axis) plot(e estimate.Estimate, symbol draw.Symbol, goal float64, alt string) template.HTML {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg role="img" aria-label="%s">`, template.HTMLEscapeString(alt))
	for power := a.Max; power >= a.Min; power -= a.Step {
		x := a.at(float64(power))
		fmt.Fprintf(&b, `<line x1="%s%%" x2="%s%%" y1="0" y2="100%%" stroke="%s"/>`, x, x, draw.Faint)
	}
	if goal > 0 {
		x := a.place(goal)
		fmt.Fprintf(&b, `<line x1="%s%%" x2="%s%%" y1="0" y2="100%%" stroke="%s" stroke-width="1.5" stroke-dasharray="4 3"/>`, x, x, draw.Ink)
	}
	if draw.Known(e) {
		a.point(&b, e, symbol)
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

// point draws a chance with its spread; one of 0 as a pointer at the low end.
func (a axis) point(b *strings.Builder, e estimate.Estimate, symbol draw.Symbol) {
	at := float64(a.Min)
	shape := strings.TrimPrefix(draw.PointerLeft, draw.NoShape)
	if e.High > 0 {
		w := draw.WhiskerOf(e)
		if e.Value > 0 {
			at, shape = w.At, strings.TrimPrefix(symbol.Shape, draw.NoShape)
		} else {
			w.Low = at
		}
		if w.High > w.Low {
			low, high := a.at(w.Low), a.at(w.High)
			fmt.Fprintf(b, `<line x1="%s%%" x2="%s%%" y1="50%%" y2="50%%" stroke="%s" stroke-width="2"/>`, low, high, symbol.Colour)
			end := "M0 -5V5"
			if w.Open {
				end = "M5 -5L0 0L5 5"
			}
			put(b, low, fmt.Sprintf(`<path d="%s" fill="none" stroke="%s" stroke-width="2"/>`, end, symbol.Colour))
			put(b, high, fmt.Sprintf(`<path d="M0 -5V5" fill="none" stroke="%s" stroke-width="2"/>`, symbol.Colour))
		}
	}
	fill := symbol.Colour
	if symbol.Hollow {
		fill = draw.Paper
	}
	put(b, a.at(at), fmt.Sprintf(`<path transform="scale(.62) translate(-10 -10)" d="%s" fill="%s" stroke="%s" stroke-width="2.6"/>`, shape, fill, symbol.Colour))
}

// put puts a shape in the middle of the row.
func put(b *strings.Builder, x, shape string) {
	fmt.Fprintf(b, `<svg x="%s%%" y="50%%" overflow="visible">%s</svg>`, x, shape)
}
