package fit

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array/unit"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/fit"
)

// TestSurvivalChart draws a curve of four ages, and laws whose shares are worked out
// by their formulas: exp(−rate·t), and for a Weibull law exp(−(t/η)^β).
func TestSurvivalChart(t *testing.T) {
	t.Parallel()
	const year = unit.HoursPerYear
	r := fit.Result{Label: "made", Failures: 3, AFR: estimate.Estimate{Value: 0.05, Low: 0.02, High: 0.1},
		Weibull: &fit.Weibull{Shape: estimate.Estimate{Value: 2}, Scale: estimate.Estimate{Value: 10 * year}},
		Survival: []fit.Survived{
			{Hours: 0, Value: 1, Low: 1, High: 1, AtRisk: 40},
			{Hours: 1 * year, Value: 0.95, Low: 0.85, High: 0.99, AtRisk: 20},
			{Hours: 2 * year, Value: 0.9, Low: 0.81, High: 0.96, AtRisk: 19},
			{Hours: 4 * year, Value: 0.9, Low: 0.81, High: 0.96, AtRisk: 10},
		}}
	c := survivalChart(draw.MarkOf(0, r.Label), r)
	o := chartstest.Decode(t, c)
	o.X.CheckSpan(t, 0, 4, 0)
	o.Y.CheckSpan(t, 0.8, 1, 0.05) // all is above 0.81, the laws too
	// Steps: level up to each age, then down.
	o.One(t, "line", "as seen").CheckItems(t, []float64{0, 1}, []float64{1, 1}, []float64{1, 0.95}, []float64{2, 0.95}, []float64{2, 0.9}, []float64{4, 0.9}, []float64{4, 0.9})
	o.One(t, "band", "as seen").CheckItems(t, []float64{0, 1, 1}, []float64{1, 1, 1}, []float64{1, 0.85, 0.99}, []float64{2, 0.85, 0.99}, []float64{2, 0.81, 0.96}, []float64{4, 0.81, 0.96}, []float64{4, 0.81, 0.96})
	dots := o.One(t, "scatter", "as seen")
	dots.CheckItems(t, []float64{0, 1}, []float64{1, 0.95}, []float64{2, 0.9}, []float64{4, 0.9})
	dots.Items[1].CheckTip(t, "1 · made", "at 1 years: 95 % (85.0 to 99.0)", "20 drives watched at that age")
	for name, share := range map[string]func(years float64) float64{
		"constant rate": func(y float64) float64 { return math.Exp(-0.05 * y) },
		"Weibull law":   func(y float64) float64 { return math.Exp(-math.Pow(y/10, 2)) },
	} {
		law := o.One(t, "line", name)
		for _, i := range law.Items {
			if want := share(i.Value[0]); math.Abs(i.Value[1]-want) > 1e-9 {
				t.Errorf("%s at %v years is %v, want %v", name, i.Value[0], i.Value[1], want)
			}
		}
		if (law.Stroke == "dashed") != (name == "constant rate") {
			t.Errorf("%s is %s", name, law.Stroke)
		}
	}
	if !strings.Contains(c.Read, "The scale begins at 80 %, not at 0.") {
		t.Errorf("how to read it: %q", c.Read)
	}
}

// Drives that are watched from an age on are counted from there: the laws start at 1.
func TestSurvivalFromAnAgeOn(t *testing.T) {
	t.Parallel()
	const year = unit.HoursPerYear
	r := fit.Result{Label: "old", Failures: 1, AFR: estimate.Estimate{Value: 0.05},
		Survival: []fit.Survived{{Hours: 2 * year, Value: 1, Low: 1, High: 1}, {Hours: 3 * year, Value: 0.9, Low: 0.7, High: 0.98}}}
	c := survivalChart(draw.MarkOf(0, r.Label), r)
	o := chartstest.Decode(t, c)
	o.X.CheckSpan(t, 2, 3, 0)
	law := o.One(t, "line", "constant rate").Items
	chartstest.CheckNear(t, "the law's start", law[0].Value, 2, 1)
	chartstest.CheckNear(t, "the law's end", law[len(law)-1].Value, 3, math.Exp(-0.05))
	if !strings.Contains(c.Read, "lived to 2 years") {
		t.Errorf("how to read it: %q", c.Read)
	}
}
