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

	"arrayodds/sim/study"
)

func jsonOf(t *testing.T, r study.Comparison) string {
	t.Helper()
	var b bytes.Buffer
	if err := JSON(&b, r); err != nil {
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
	r := made()
	r.Outcomes = r.Outcomes[:1]
	r.Outcomes[0].Result.LossCurve = r.Outcomes[0].Result.LossCurve[:1]
	if got := leaves(t, jsonOf(t, r)); !slices.Equal(got, want) {
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
	text := jsonOf(t, made())
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
		for _, key := range []string{"meets_demand", "retention_days", "loss_chance_retention", "missing_clip_chance", "camera_days_lost_per_year", "missing_by_cause"} {
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

func TestJSONRefusesWhatIsNoNumber(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		r := made()
		r.Outcomes[1].Result.LossEvents.High = x
		if err := JSON(&bytes.Buffer{}, r); err == nil || !strings.Contains(err.Error(), fmt.Sprint(x)) {
			t.Errorf("%v was written; error %v", x, err)
		}
	}
}
