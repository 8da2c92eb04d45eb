package rank

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
)

// The line between the two points of a row, which only this page draws, is golden.
func TestKinds(t *testing.T) {
	t.Parallel()
	chartstest.CheckKinds(t, rankedSample(1, true).charts(), "joined")
}

func TestSwingChart(t *testing.T) {
	t.Parallel()
	r := rankedSample(1, false)
	c := r.swingChart(0)
	o := chartstest.Decode(t, c)
	all := r.Choices[0].Inputs
	if len(o.Y.Rows) != mostSwings || len(all) != 16 || !strings.Contains(strings.Join(c.Notes, " "), "4 inputs") {
		t.Fatalf("%d rows of %d inputs; notes %q", len(o.Y.Rows), len(all), c.Notes)
	}
	// From 0.3 ÷ √401 ÷ 1.04, and a decade for the chance of 0.
	o.X.CheckSpan(t, -3, 0, 1)
	// Names are cut to their end, ranges that the site file does not give are marked.
	for row, want := range []string{"…response.lognormal.median\n(12 h … lognormal:…)", "care.input_1 *\n(12 h … 96 h)"} {
		if got := strings.ReplaceAll(o.Y.Rows[row], "\u00a0", " "); got != want {
			t.Errorf("row %d is %q, want %q", row, got, want)
		}
	}
	o.One(t, "mark", "").CheckItems(t, []float64{math.Log10(0.3), 0})
	joined := o.All("joined", "range")
	place := func(e estimate.Estimate) float64 {
		if e.Value == 0 {
			return -3
		}
		return math.Log10(e.Value)
	}
	for row, in := range all[:mostSwings] {
		joined[row].CheckItems(t, []float64{place(in.AtLow), place(in.AtHigh), float64(row), 0})
		ends, whiskers := o.All("scatter", in.Path), o.All("across", in.Path)
		if len(ends) != 2 {
			t.Fatalf("%s has %d points", in.Path, len(ends))
		}
		for k, e := range []estimate.Estimate{in.AtLow, in.AtHigh} {
			ends[k].CheckItems(t, []float64{place(e), float64(row)})
			if hollow := k == 0; ends[k].Hollow != hollow || ends[k].Colour != []string{draw.Teal, draw.Orange}[k] {
				t.Errorf("%s: end %d is hollow %v, %s", in.Path, k, ends[k].Hollow, ends[k].Colour)
			}
			if e.Value > 0 {
				whiskers[0].CheckItems(t, []float64{math.Log10(e.Low), math.Log10(e.High), float64(row), 0, 0})
				whiskers = whiskers[1:]
			}
		}
		if len(whiskers) > 0 {
			t.Errorf("%s has %d intervals left over", in.Path, len(whiskers))
		}
	}
	// 0.3 × √101 is more than a chance can be in the sample.
	o.All("scatter", "care.input_1")[1].Items[0].CheckTip(t, "1 · 9 x 8 TB, no redundancy", "care.input_1 96 h", "90 in 100 within 5 years", "95 % interval: 86.4 in 100 to 93.6 in 100")
}

func TestSharesChart(t *testing.T) {
	t.Parallel()
	r := rankedSample(1, true)
	c, ok := r.sharesChart(0)
	if !ok {
		t.Fatal("there is no chart of shares")
	}
	o := chartstest.Decode(t, c)
	for i, want := range []string{"by itself (first share)", "with all that it does together with others (total share)", "default range, a guess"} {
		if c.Key[i].Text != want {
			t.Errorf("the key says %q, want %q", c.Key[i].Text, want)
		}
	}
	o.X.CheckSpan(t, 0, 100, 0)
	dots, whiskers := o.All("scatter", "share"), o.All("across", "share")
	if len(o.Y.Rows) != mostSwings || len(dots) != 2*mostSwings || len(whiskers) != len(dots) {
		t.Fatalf("%d rows, %d points, %d intervals", len(o.Y.Rows), len(dots), len(whiskers))
	}
	for row, in := range r.Choices[0].Inputs[:mostSwings] {
		for k, e := range []*estimate.Estimate{in.First, in.Total} {
			down := []int{-7, 7}[k]
			d := dots[2*row+k]
			chartstest.CheckNear(t, in.Path, d.Items[0].Value, math.Round(1e8*e.Value)/1e6, float64(row))
			chartstest.CheckNear(t, in.Path, whiskers[2*row+k].Items[0].Value, math.Round(1e8*e.Low)/1e6, math.Round(1e8*e.High)/1e6, float64(row), float64(down), 0)
			if d.Hollow != (k == 0) || !slices.Equal(d.Items[0].Offset, []int{0, down}) {
				t.Errorf("%s: hollow %v, moved %v", in.Path, d.Hollow, d.Items[0].Offset)
			}
		}
	}
	dots[2].Items[0].CheckTip(t, "1 · 9 x 8 TB, no redundancy", "care.input_1", "25 % of the variance by itself", "95 % interval: 22 % to 28 %")                                  // 0.215 to 0.275
	dots[3].Items[0].CheckTip(t, "1 · 9 x 8 TB, no redundancy", "care.input_1", "30 % of the variance with all that it does together with others", "95 % interval: 27 % to 33 %") // 0.3 ± 10 %
}

// A share that sampling takes out of 0 to 1 is drawn at the end.
func TestSharesKeepWithinTheScale(t *testing.T) {
	t.Parallel()
	r := rankedSample(1, true)
	*r.Choices[0].Inputs[0].Total = estimate.Estimate{Value: 0.98, Low: 0.9, High: 1.06}
	*r.Choices[0].Inputs[0].First = estimate.Estimate{Value: 0.004, Low: -0.02, High: 0.03}
	c, _ := r.sharesChart(0)
	whiskers := chartstest.Decode(t, c).All("across", "share")
	for k, want := range [][]float64{{0, 3}, {90, 100}} {
		chartstest.CheckNear(t, fmt.Sprintf("interval %d", k), whiskers[k].Items[0].Value[:2], want...)
	}
}
