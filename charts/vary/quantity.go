package vary

import (
	"cmp"
	"fmt"
	"math"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// quantity is what a drawing of one varied input shows of a point.
type quantity struct {
	id, title, axis string
	of              func(study.Point) estimate.Estimate
	tip             func(estimate.Estimate) []string
	said            func(estimate.Estimate) string // in few words
	read            string                         // how to read it
	skip            int                            // place of a choice that has none; -1: every one has
	times           bool                           // on a scale of times, not of odds
	flat            bool                           // choices on which the input does not bear are drawn too
	none            string                         // said of points of value 0
	sign            string                         // how those are drawn, where not by a pointer
}

// shown says how a point of value 0 is drawn.
func (q quantity) shown() string { return cmp.Or(q.sign, "A pointer at the low end of the scale") }

// riskScale is the scale of a quantity.
type riskScale struct {
	odds  draw.LogAxis
	times *draw.RatioAxis
}

// lowEnd returns where 0 lies.
func (s riskScale) lowEnd() float64 {
	if s.times != nil {
		return s.times.Min
	}
	return float64(s.odds.Min)
}

func (s riskScale) horizontal(name string) opts.XAxis {
	if s.times != nil {
		return s.times.Horizontal(name)
	}
	return s.odds.Horizontal(name)
}

func (s riskScale) vertical(name string) opts.YAxis {
	if s.times != nil {
		return s.times.Vertical(name)
	}
	return s.odds.Vertical(name)
}

// riskScaleFor spans all that is drawn of a quantity; most bounds the ticks of a
// scale of times.
func (v sweep) riskScaleFor(q quantity, most int) riskScale {
	var all []estimate.Estimate
	low, high := math.Inf(1), math.Inf(-1)
	zero := false
	v.each(q, func(_, _ int, e estimate.Estimate) {
		if e.Value > 0 {
			w := draw.BoundedWhiskerOf(e)
			low, high = math.Min(low, w.Low), math.Max(high, w.High)
		}
		zero = zero || e.Value == 0
		if !math.IsInf(e.High, 0) && !math.IsNaN(e.High) {
			all = append(all, e)
		}
	})
	if !q.times {
		if goal, ok := v.goal(); ok {
			all = append(all, estimate.Estimate{Value: goal, Low: goal, High: goal})
		}
		return riskScale{odds: draw.NewLogAxis(all)}
	}
	if math.IsInf(low, 1) {
		low, high = 0, 0
	}
	if zero {
		low--
	}
	s := draw.NewRatioAxis(low, high, most)
	return riskScale{times: &s}
}

// goal returns the loss chance that was solved for; false where there is none.
func (v sweep) goal() (float64, bool) {
	if v.BreakEven == nil || !(v.BreakEven.Chance > 0) {
		return 0, false
	}
	return v.BreakEven.Chance, true
}

// each calls f with every known figure of a quantity, choice by choice.
func (v sweep) each(q quantity, f func(choice, at int, e estimate.Estimate)) {
	for c, curve := range v.Curves {
		if !v.draws(q, c) {
			continue
		}
		for i, p := range curve.Points {
			if e := q.of(p); p.Absent == "" && draw.Known(e) {
				f(c, i, e)
			}
		}
	}
}

// draws reports whether a drawing of a quantity has the choice at a place.
func (v sweep) draws(q quantity, place int) bool {
	return place != q.skip && (q.flat || !v.Curves[place].Untouched())
}

// lossQuantity returns the loss chance.
func (v sweep) lossQuantity() quantity {
	within := "within " + page.ServiceLife(v.Site)
	return quantity{
		id: "varied-loss", title: "Chance of losing footage " + within, axis: "chance of a loss " + within, skip: -1,
		of: func(p study.Point) estimate.Estimate { return p.Loss },
		tip: func(e estimate.Estimate) []string {
			return []string{figure.Odds(e) + " " + within, "95 % interval: " + figure.OddsInterval(e)}
		},
		said: figure.Odds,
		none: "no loss was found",
	}
}

// ownQuantity returns how many times riskier than as the site file has it.
func (v sweep) ownQuantity() quantity {
	q := timesQuantity("than as the site file has it")
	q.id, q.title, q.axis = "varied-own", "How many times riskier than as the site file has it", "times the chance as it stands"
	q.of = func(p study.Point) estimate.Estimate { return p.ToOwn }
	q.read = "Above × 1 riskier than the same choice as it stands in the site file, below it safer; the band is the 95 % interval of the ratio itself, from trials that share their random streams"
	return q
}

// againstQuantity returns how many times riskier than the choice that the others are
// held against.
func (v sweep) againstQuantity() quantity {
	name := label.Short(v.Against)
	q := timesQuantity("than " + name)
	q.id, q.title, q.axis = "varied-against", "How many times riskier than "+name, "times its chance at the same value"
	q.of, q.flat = func(p study.Point) estimate.Estimate { return p.Against }, true
	q.skip = v.against()
	q.read = "Above × 1 riskier at that value than the choice held against, below it safer; the band is the 95 % interval of the ratio itself, from trials that share their random streams"
	return q
}

func timesQuantity(than string) quantity {
	return quantity{
		times: true, skip: -1, none: "no loss was found there",
		said: func(e estimate.Estimate) string { return "× " + figure.Ratio(e) },
		tip: func(e estimate.Estimate) []string {
			return []string{fmt.Sprintf("%s times as likely to lose footage %s", figure.Ratio(e), than), "95 % interval: " + figure.RatioInterval(e)}
		},
	}
}

// against returns the place of the choice held against; -1: none.
func (v sweep) against() int {
	if v.Against != "" {
		for i, c := range v.Curves {
			if c.Choice.Label == v.Against {
				return i
			}
		}
	}
	return -1
}
