package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// One series of each kind is golden: testdata holds it as data.
func TestKinds(t *testing.T) {
	t.Parallel()
	all := inFileOrder().charts()
	chartstest.CheckKinds(t, all, "across", "upright", "band", "scatter", "line")
	chartstest.CheckFrame(t, "frame.json", all[0])
}

// names are those of the choices in a chart.
func names(r report) []string {
	var names []string
	for i, o := range r.Outcomes {
		names = append(names, fmt.Sprintf("%d · %s", i+1, o.Choice.Label))
	}
	return names
}

// logs are the decimal logarithms of a chance and the ends of its interval.
func logs(e estimate.Estimate) (at, low, high float64) {
	return math.Log10(e.Value), math.Log10(e.Low), math.Log10(e.High)
}

func TestLossChart(t *testing.T) {
	t.Parallel()
	r := inFileOrder()
	c := r.lossChart()
	o := chartstest.Decode(t, c)
	// The least chance is 1.3e-9, and a decade is kept for the one of 0; ten decades
	// are more than has ticks each.
	o.X.CheckSpan(t, -10, 0, 2)
	if o.X.Words != "odds" || o.X.Name != "chance of a loss within 5 years" {
		t.Errorf("the scale is %q in %q", o.X.Name, o.X.Words)
	}
	last := len(r.Outcomes) - 1
	for i, name := range names(r) {
		out := r.Outcomes[i]
		row := name
		if !out.Sizing.Meets {
			row += " (falls short)"
		}
		if o.Y.Rows[i] != row {
			t.Errorf("row %d is %q, want %q", i, o.Y.Rows[i], row)
		}
		point := o.One(t, "scatter", name)
		if point.Hollow == out.Sizing.Meets || point.Colour != draw.Palette[i%len(draw.Palette)] {
			t.Errorf("%s: hollow %v, colour %s", name, point.Hollow, point.Colour)
		}
		if i == last {
			continue
		}
		at, low, high := logs(out.Result.LossChance)
		point.CheckItems(t, []float64{at, float64(i)})
		o.One(t, "across", name).CheckItems(t, []float64{low, high, float64(i), 0, 0})
	}
	p := o.One(t, "scatter", "3 · 8 x 12 TB, single parity").Items[0]
	p.CheckTip(t, "3 · 8 x 12 TB, single parity", "about 13 of 10 000 lose footage in 5 years (1 in 760)", "as entered: 1 in 760", "95 % interval of the simulation: 1 in 800 to 1 in 730") // 1.31e-3 ± 5.9e-5
	if p.Label != "1 in 760" {
		t.Errorf("beside the point stands %q", p.Label)
	}
	// A chance of 0 is a pointer at the low end, without an interval.
	none := o.One(t, "scatter", names(r)[last])
	none.CheckItems(t, []float64{-10, float64(last)})
	if none.Symbol != draw.PointerLeft || !slices.Equal(none.Items[0].Offset, []int{9, 0}) || len(o.All("across", names(r)[last])) > 0 {
		t.Errorf("no loss is drawn as %s, moved %v", none.Symbol, none.Items[0].Offset)
	}
	if !strings.Contains(c.Alt, "9 · 4 x 18 TB, four copies: none") {
		t.Errorf("what is heard is %q", c.Alt)
	}
	if len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "Warning for 6 · 8 x 12 TB, double parity and a hot spare: three trials") {
		t.Errorf("notes %q", c.Notes)
	}
}

// Choices stand safest first, each with its number in the file. Where the doubt was worked
// out the point is the chance in all, with its spread, and below it the one as entered.
func TestLossChartOverTheDoubt(t *testing.T) {
	t.Parallel()
	c := chartstest.Sample()
	c.Doubt = &study.Doubt{Settings: 64}
	for i := range c.Outcomes {
		e := c.Outcomes[i].Result.LossChance
		c.Outcomes[i].Doubt = &study.ChoiceDoubt{LossInAll: e.Times(2), Low: e.Value / 10, Median: e.Value, High: 8 * e.Value}
	}
	r := newReport(c)
	o := chartstest.Decode(t, r.lossChart())
	const name = "6 · 8 x 12 TB, double parity and a hot spare"
	if o.Y.Rows[0] != name {
		t.Errorf("the first row is %q", o.Y.Rows)
	}
	o.One(t, "scatter", name).CheckItems(t, []float64{math.Log10(1.9e-7), 0})
	o.One(t, "across", name).CheckItems(t, []float64{math.Log10(9.5e-9), math.Log10(7.6e-7), 0, 0, 0})
	o.One(t, "scatter", name+", as entered").CheckItems(t, []float64{math.Log10(9.5e-8), 0})
}

func TestYearsChart(t *testing.T) {
	t.Parallel()
	r := inFileOrder()
	c := r.yearsChart()
	o := chartstest.Decode(t, c)
	o.X.CheckSpan(t, 0, 5, 0)
	o.Y.CheckSpan(t, -10, 0, 2) // from 2e-10 after a year
	for i, name := range names(r) {
		curve := r.Outcomes[i].Result.LossCurve
		if curve[0].Value == 0 {
			if len(o.All("line", name))+len(o.All("band", name))+len(o.All("scatter", name)) > 0 {
				t.Errorf("%s has no loss and is drawn", name)
			}
			continue
		}
		var line, band [][]float64
		for _, p := range curve {
			at, low, high := logs(p.Estimate)
			line, band = append(line, []float64{p.Years, at}), append(band, []float64{p.Years, low, high})
		}
		l, dots := o.One(t, "line", name), o.One(t, "scatter", name)
		l.CheckItems(t, line...)
		dots.CheckItems(t, line...) // few enough years for a symbol each
		o.One(t, "band", name).CheckItems(t, band...)
		if meets := r.Outcomes[i].Sizing.Meets; (l.Stroke == "solid") != meets || dots.Hollow == meets {
			t.Errorf("%s meets the demand: %v; its line is %s, its points hollow: %v", name, meets, l.Stroke, dots.Hollow)
		}
		for k, item := range dots.Items {
			want := ""
			if k == len(dots.Items)-1 {
				want = fmt.Sprint(i + 1)
			}
			if item.Label != want {
				t.Errorf("%s, point %d is labelled %q, want %q", name, k, item.Label, want)
			}
		}
	}
	// 1 − exp(−events/5) of 0.49 in 5 years is 0.126.
	o.One(t, "scatter", names(r)[0]).Items[0].CheckTip(t, "1 · 9 x 8 TB, no redundancy", "12.6 in 100 within 1 year", "95 % interval: 12.3 in 100 to 12.9 in 100")
	if !strings.Contains(strings.Join(c.Notes, " "), "Not drawn, as no loss was found: 9 · 4 x 18 TB, four copies.") {
		t.Errorf("notes %q", c.Notes)
	}
	if !strings.Contains(c.Read, "powers of ten") {
		t.Errorf("how to read it: %q", c.Read)
	}
}

// Chances of one size are drawn on a plain scale from 0, where the curves begin.
func TestYearsChartOnAPlainScale(t *testing.T) {
	t.Parallel()
	r := inFileOrder()
	r.Outcomes = r.Outcomes[:2]
	o := chartstest.Decode(t, r.yearsChart())
	if o.Y.Words != "percent" || o.Y.Min == nil || *o.Y.Min != 0 || o.Y.Max != nil {
		t.Errorf("the scale is in %s", o.Y.Words)
	}
	line := o.One(t, "line", names(r)[0])
	last := r.Outcomes[0].Result.LossCurve[4]
	chartstest.CheckNear(t, "the first point", line.Items[0].Value, 0, 0)
	chartstest.CheckNear(t, "the last point", line.Items[5].Value, 5, last.Value)
	band := o.One(t, "band", names(r)[0])
	chartstest.CheckNear(t, "the end of the band", band.Items[5].Value, 5, last.Low, last.High)
}

func TestCostChart(t *testing.T) {
	t.Parallel()
	r := inFileOrder()
	c := r.costChart()
	o := chartstest.Decode(t, c)
	o.Y.CheckSpan(t, -10, 0, 2)
	if o.X.Words != "money" {
		t.Errorf("prices are in %q", o.X.Words)
	}
	// Recorder and drives, by hand.
	prices := []float64{2400 + 9*190, 2400 + 6*190, 2400 + 8*290, 2400 + 8*290, 2400 + 8*290, 2400 + 9*290, 2400 + 8*410, 2400 + 10*190, 2400 + 4*410}
	for i, name := range names(r) {
		at, low, high := logs(r.Outcomes[i].Result.LossChance)
		point := o.One(t, "scatter", name)
		if i == len(prices)-1 {
			at = -10
			if point.Symbol != draw.PointerDown || len(o.All("upright", name)) > 0 {
				t.Errorf("no loss is drawn as %s", point.Symbol)
			}
		} else {
			o.One(t, "upright", name).CheckItems(t, []float64{prices[i], low, high, 0})
		}
		point.CheckItems(t, []float64{prices[i], at})
		if point.Items[0].Label != fmt.Sprint(i+1) {
			t.Errorf("%s is numbered %q", name, point.Items[0].Label)
		}
	}
	o.One(t, "scatter", names(r)[4]).Items[0].CheckTip(t, "5 · 8 x 12 TB, double parity", "4 720 EUR to buy", "fewer than 1 of 10 000 lose footage (1 in 2.4 million)", "95 % interval: 1 in 2.50 million to 1 in 2.27 million")
	// The cheapest that meets the demand, then what is safer beyond doubt: of those at
	// 4 720 double parity, and it with a hot spare.
	steps := o.One(t, "line", "steps up")
	steps.CheckItems(t, []float64{prices[0], math.Log10(0.49)}, []float64{prices[4], math.Log10(4.2e-7)}, []float64{prices[5], math.Log10(9.5e-8)})
	if steps.Step != "end" || !strings.Contains(c.Read, "staircase") {
		t.Errorf("the steps are joined %q; %s", steps.Step, c.Read)
	}
	if !strings.Contains(strings.Join(c.Notes, " "), "as no loss was found: 9 ·") {
		t.Errorf("notes %q", c.Notes)
	}
}

func TestCausesChart(t *testing.T) {
	t.Parallel()
	r := inFileOrder()
	o := chartstest.Decode(t, r.causesChart())
	o.X.CheckSpan(t, -12, 0, 2) // from 2e-11
	for n, cause := range []string{"drives", "unreadable", "recorder", "shortfall"} {
		all := o.All("scatter", cause)
		for i, out := range r.Outcomes {
			m := out.Result.MissingByCause
			e := []estimate.Estimate{m.Drives, m.Unreadable, m.Recorder, m.Shortfall}[n]
			if e.High == 0 {
				continue
			}
			if len(all) == 0 {
				t.Fatalf("%s of %s is not drawn", cause, out.Choice.Label)
			}
			point := all[0]
			all = all[1:]
			at, low, high := logs(e)
			point.CheckItems(t, []float64{at, float64(i)})
			// The causes of a choice lie 17 pixels apart, around the middle of its row.
			if down := -25 + 17*n; !slices.Equal(point.Items[0].Offset, []int{0, down}) {
				t.Errorf("%s is moved by %v, want %d down", cause, point.Items[0].Offset, down)
			} else if low < high && !hasItem(o.All("across", cause), low, high, float64(i), float64(down), 0) {
				t.Errorf("%s of %s has no interval from %v to %v", cause, out.Choice.Label, low, high)
			}
		}
		if len(all) > 0 {
			t.Errorf("%d marks of %s are left over", len(all), cause)
		}
	}
	o.All("scatter", "recorder")[0].Items[0].CheckTip(t, "1 · 9 x 8 TB, no redundancy", "Recorder: 1 in 4 167", "95 % interval: exact") // 2.4e-4
}

// hasItem reports whether one of the series has an item of those values.
func hasItem(all []chartstest.Series, want ...float64) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6 }
	for _, s := range all {
		for _, i := range s.Items {
			if slices.EqualFunc(i.Value, want, near) {
				return true
			}
		}
	}
	return false
}
