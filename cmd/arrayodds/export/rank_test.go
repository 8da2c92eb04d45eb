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

func TestRankJSONAndCSV(t *testing.T) {
	share := about(0.4)
	r := study.Ranking{Site: sample().Site, Choices: []study.RankedChoice{{Choice: array.Choice{Label: "one"}, Likely: about(1e-4), Inputs: []study.RankedInput{
		{Path: "a", Low: "1", Likely: "2", High: "3", Given: true, AtLow: about(1e-5), AtHigh: about(1e-3), Swing: about(100), First: &share, Total: &share},
		{Path: "b", Low: "1", Likely: "2", High: "3", Range: "half to twice, a guess", AtLow: about(0), AtHigh: about(1e-3), Swing: estimate.Estimate{Value: math.Inf(1), Low: 1, High: math.Inf(1)}},
	}}}}
	var b bytes.Buffer
	if err := rankJSON(&b, r); err != nil {
		t.Fatal(err)
	}
	all := parsed(t, &b)
	for _, c := range []struct {
		want any
		path []any
	}{
		{"a", []any{"choices", 0, "inputs", 0, "path"}}, {true, []any{"choices", 0, "inputs", 0, "given"}}, {100.0, []any{"choices", 0, "inputs", 0, "swing", "value"}},
		{0.4, []any{"choices", 0, "inputs", 0, "variance_share_first", "value"}}, {nil, []any{"choices", 0, "inputs", 1, "variance_share_total"}}, {nil, []any{"choices", 0, "inputs", 1, "swing"}},
	} {
		if got := at(t, all, c.path...); got != c.want {
			t.Errorf("%v is %v, want %v", c.path, got, c.want)
		}
	}
	b.Reset()
	if err := rankCSV(&b, r); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 3 || rows[1][5] != "given" || rows[2][5] != "half to twice, a guess" || rows[2][12] != "" || rows[1][15] != "0.4" {
		t.Errorf("%v %v", rows, err)
	}
}
