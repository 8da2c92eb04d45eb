package export

import (
	"bytes"
	"encoding/csv"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

var nobody = estimate.None()

// sampleSweep returns one choice over two inputs, with a pair that has no figures and a
// ratio without an upper end.
func sampleSweep() study.Sweep {
	v := study.Sweep{Site: sample().Site, Seed: 7, Inputs: []study.Input{
		{Path: "care.response", Called: "time until a new drive is in", Unit: "h", Texts: []string{"4 h", "8 h"}, Values: []float64{4, 8}, Own: 4},
		{Path: "care.unreadable", Texts: []string{"skip", "stop"}, Own: math.NaN()},
	}}
	c := study.Curve{Choice: array.Choice{Label: "=one"}, Own: about(1e-4)}
	for i := range 4 {
		c.Points = append(c.Points, study.Point{Drives: 5 + i, Groups: 1 + i, Meets: true, Purchase: 900, CostOfLife: about(2000), Loss: about(1e-4), Clip: nobody, ToOwn: about(2), Against: nobody})
	}
	c.Points[1] = study.Point{Drives: 14, Absent: "14 drives, and the recorder has 12 bays", Purchase: math.NaN(), CostOfLife: nobody, Loss: nobody, Clip: nobody, ToOwn: nobody, Against: nobody}
	c.Points[2].ToOwn = estimate.Estimate{Value: 0, High: math.Inf(1)}
	v.Curves = []study.Curve{c}
	v.BreakEven = &study.BreakEven{Goal: "a goal", Rows: []study.BreakEvenRow{{Choice: c.Choice, Value: about(31)}, {Choice: c.Choice, Value: nobody, Words: "safer"}}}
	return v
}

func TestVaryJSON(t *testing.T) {
	var b bytes.Buffer
	if err := varyJSON(&b, sampleSweep()); err != nil {
		t.Fatal(err)
	}
	all := parsed(t, &b)
	for _, c := range []struct {
		want any
		path []any
	}{
		{1.0, []any{"format"}}, {8.0, []any{"inputs", 0, "values", 1}}, {4.0, []any{"inputs", 0, "own"}}, {nil, []any{"inputs", 1, "own"}}, {nil, []any{"inputs", 1, "values"}},
		{"=one", []any{"choices", 0, "label"}}, {1e-4, []any{"choices", 0, "own_loss_chance", "value"}},
		{"8 h", []any{"choices", 0, "points", 3, "values", 0}}, {"stop", []any{"choices", 0, "points", 3, "values", 1}}, {8.0, []any{"choices", 0, "points", 3, "drives"}}, {4.0, []any{"choices", 0, "points", 3, "groups"}}, {"time until a new drive is in", []any{"inputs", 0, "name"}},
		{900.0, []any{"choices", 0, "points", 0, "purchase_cost"}}, {2100.0, []any{"choices", 0, "points", 0, "cost_of_life", "high"}}, {nil, []any{"choices", 0, "points", 1, "cost_of_life"}}, {nil, []any{"currency"}}, {nil, []any{"choices", 0, "points", 1, "loss_chance"}}, {nil, []any{"choices", 0, "points", 0, "missing_clip_chance"}},
		{"14 drives, and the recorder has 12 bays", []any{"choices", 0, "points", 1, "absent"}},
		{nil, []any{"choices", 0, "points", 2, "ratio_to_own", "high"}}, {0.0, []any{"choices", 0, "points", 2, "ratio_to_own", "low"}}, {1.9, []any{"choices", 0, "points", 0, "ratio_to_own", "low"}},
		{31.0, []any{"break_even", "choices", 0, "value", "value"}}, {nil, []any{"break_even", "choices", 1, "value"}}, {"safer", []any{"break_even", "choices", 1, "words"}},
	} {
		if got := at(t, all, c.path...); got != c.want {
			t.Errorf("%v is %v, want %v", c.path, got, c.want)
		}
	}
}

func TestVaryCSV(t *testing.T) {
	var b bytes.Buffer
	if err := varyCSV(&b, sampleSweep()); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	cell := func(row int, name string) string {
		for i, head := range all[0] {
			if head == name {
				return all[row][i]
			}
		}
		t.Fatalf("no column %s in %v", name, all[0])
		return ""
	}
	for _, c := range []struct {
		row        int
		name, want string
	}{
		{1, "choice", "'=one"}, {3, "groups", "3"}, {2, "care.response (h)", "8"}, {4, "care.unreadable", "stop"}, {2, "loss_chance", ""}, {1, "loss_chance_low", "9.5e-05"},
		{3, "ratio_to_own_high", ""}, {3, "ratio_to_own", "0"}, {1, "meets_demand", "yes"}, {2, "purchase_cost", ""}, {2, "absent", "14 drives, and the recorder has 12 bays"},
	} {
		if got := cell(c.row, c.name); got != c.want {
			t.Errorf("row %d, %s is %q, want %q", c.row, c.name, got, c.want)
		}
	}
	if len(all) != 5 {
		t.Errorf("%d rows", len(all))
	}
}
