package export

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

func jsonOf(t *testing.T, r study.Comparison) string {
	t.Helper()
	var b bytes.Buffer
	if err := compareJSON(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestJSONKeys walks the text token by token, so that order counts too.
func TestJSONKeys(t *testing.T) {
	golden, err := os.ReadFile("testdata/keys.txt")
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, line := range strings.Fields(string(golden)) {
		if at, ok := strings.CutSuffix(line, "{}"); ok { // an estimate
			for _, key := range []string{"value", "low", "high", "relative_error"} {
				want = append(want, at+"."+key)
			}
			continue
		}
		want = append(want, line)
	}
	r := sample()
	r.Outcomes[1] = r.Outcomes[0]
	r.Doubt.LeftOut[0].Chance[1], r.Doubt.LeftOut[0].Factor[1] = r.Doubt.LeftOut[0].Chance[0], r.Doubt.LeftOut[0].Factor[0]
	var got []string
	for _, leaf := range leaves(t, jsonOf(t, r)) {
		if !slices.Contains(got, leaf) { // of lists the first item
			got = append(got, leaf)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("keys are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// leaves lists the paths of all values that are neither objects nor arrays.
func leaves(t *testing.T, text string) []string {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	var out []string
	var walk func(path string)
	walk = func(path string) {
		token, err := d.Token()
		if err != nil {
			t.Fatal(err)
		}
		switch token {
		case json.Delim('{'):
			for d.More() {
				key, err := d.Token()
				if err != nil {
					t.Fatal(err)
				}
				walk(strings.TrimPrefix(path+"."+key.(string), "."))
			}
			d.Token()
		case json.Delim('['):
			for d.More() {
				walk(path + "[]")
			}
			d.Token()
		default:
			out = append(out, path)
		}
	}
	walk("")
	return out
}

func TestJSONFigures(t *testing.T) {
	text := jsonOf(t, sample())
	for _, want := range []string{
		`"site": "Heron's <Lock> & Weir"`,
		`"seed": 18446744073709551615`,
		`"write_bytes_per_second": 2000000,`,
		`"needed_bytes": 5184000000000`, // 4 streams of 4 Mbit/s for 30 days: 5 184 GB by SI arithmetic
		`"usable_bytes": 72000000000000`,
		`"retention_days": 41.2,`,
		`"value": 0.3,`, // and not 0.30000000000000004
		`"exact_loss_chance": 4.5e-15`,
		`"exact_loss_chance": null`,
		`"textbook_loss_chance": null`,
		`"purchase_cost": null`,
		`"purchase_cost": 2690`,
		`"drives_replaced_95": 2,`,
		`"stopped_by": "budget"`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
}

func TestJSONWithoutCameras(t *testing.T) {
	var got struct {
		Demand  any
		Choices []map[string]any
	}
	if err := json.Unmarshal([]byte(jsonOf(t, withoutCameras())), &got); err != nil {
		t.Fatal(err)
	}
	if got.Demand != nil {
		t.Errorf("demand is %v", got.Demand)
	}
	for _, c := range got.Choices {
		for _, key := range []string{"meets_demand", "retention_days", "loss_chance_retention", "missing_clip_chance", "camera_days_lost_per_year", "missing_by_cause", "missing_by_recorder"} {
			v, there := c[key]
			if !there || v != nil {
				t.Errorf("%v: %s is %v, there: %v", c["label"], key, v, there)
			}
		}
		if c["loss_chance"] == nil {
			t.Errorf("%v: no loss chance", c["label"])
		}
	}
}

// Shares are written by cause; where no loss was seen they are null.
func TestJSONLossShares(t *testing.T) {
	var got struct {
		Choices []struct {
			Shares map[string]struct{ Value, Low float64 } `json:"loss_shares"`
		}
	}
	if err := json.Unmarshal([]byte(jsonOf(t, sample())), &got); err != nil {
		t.Fatal(err)
	}
	shares := got.Choices[0].Shares
	if len(shares) != 6 || shares["common_cause"].Value != 0.625 || shares["waiting"].Low != 0.2375 || shares["spares_out"].Value != 0 {
		t.Errorf("%+v", shares)
	}
	if got.Choices[1].Shares != nil {
		t.Errorf("without a loss: %+v", got.Choices[1].Shares)
	}
}

// What there is none of is an empty array in a result that was worked out, and null
// where it could not be.
func TestJSONWithoutItems(t *testing.T) {
	r := sample()
	r.Outcomes[0].Result.LossCurve = nil
	var b bytes.Buffer
	if err := fitJSON(&b, study.Fit{Results: []fit.Result{{Label: "12 TB"}}}); err != nil {
		t.Fatal(err)
	}
	ranking := study.Ranking{Site: r.Site, Choices: []study.RankedChoice{{}}}
	var c bytes.Buffer
	if err := rankJSON(&c, ranking); err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct{ text, line string }{
		{jsonOf(t, r), `"loss_curve": [],`}, {b.String(), `"warnings": []`}, {b.String(), `"afr_by_year": null,`}, {b.String(), `"survival": null,`},
		{b.String(), `"life": null,`}, {b.String(), `"weibull": null,`}, {b.String(), `"drives": null,`}, {c.String(), `"inputs": []`},
	} {
		if !strings.Contains(want.text, want.line) {
			t.Errorf("no %s in\n%s", want.line, want.text)
		}
	}
}

func TestJSONRefusesWhatIsNoNumber(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		r := sample()
		r.Outcomes[1].Result.LossEvents.High = x
		if err := compareJSON(&bytes.Buffer{}, r); err == nil || !strings.Contains(err.Error(), fmt.Sprint("choices: 1: loss_events_mean: high: a figure came out as ", x)) {
			t.Errorf("%v was written; error %v", x, err)
		}
	}
}

func parsed(t *testing.T, b *bytes.Buffer) (all map[string]any) {
	t.Helper()
	if err := json.Unmarshal(b.Bytes(), &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// at walks down keys and places.
func at(t *testing.T, from any, path ...any) any {
	t.Helper()
	for _, p := range path {
		switch p := p.(type) {
		case int:
			from = from.([]any)[p]
		case string:
			m := from.(map[string]any)
			if _, there := m[p]; !there {
				t.Fatalf("no %q in %v", p, m)
			}
			from = m[p]
		}
	}
	return from
}
