package export

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/study"
)

// rows reads the CSV back as maps from heading to cell.
func rows(t *testing.T, r study.Comparison) []map[string]string {
	t.Helper()
	var b bytes.Buffer
	if err := compareCSV(&b, r); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll() // refuses rows of unequal length
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, record := range all[1:] {
		row := map[string]string{}
		for i, cell := range record {
			if _, twice := row[all[0][i]]; twice {
				t.Errorf("two columns %s", all[0][i])
			}
			row[all[0][i]] = cell
		}
		out = append(out, row)
	}
	return out
}

func TestCSV(t *testing.T) {
	got := rows(t, sample())
	if len(got) != 2 {
		t.Fatalf("%d rows for 2 choices", len(got))
	}
	for _, c := range []struct {
		row        int
		name, want string
	}{
		{0, "choice", `'=HYPERLINK("http://example.com")`},
		{0, "layout", "RAID 6"},
		{0, "usable_TB", "72"},
		{0, "meets_demand", "yes"},
		{0, "retention_days", "41.2"},
		{0, "loss_chance", "4.7e-15"},
		{0, "loss_chance_low", "4.5e-15"},
		{0, "loss_chance_high", "4.9e-15"},
		{0, "missing_clip_chance", "0.3"},
		{0, "missing_by_mains", "0.15"},
		{0, "missing_by_system_disk", "0"},
		{0, "missing_by_swaps_low", "0.0475"},
		{0, "loss_share_common_cause", "0.625"},
		{0, "loss_share_waiting_low", "0.2375"},
		{0, "loss_share_first_failure", "0"},
		{1, "loss_share_common_cause", ""},
		{0, "purchase_cost", ""},
		{0, "power_W", "56"},
		{0, "exact_loss_chance", "4.5e-15"},
		{0, "warnings", ""},
		{1, "choice", "two, \"quoted\"\nlines"},
		{1, "drive", "'-4 TB"},
		{1, "meets_demand", "no"},
		{1, "purchase_cost", "2690"},
		{1, "power_W", ""},
		{1, "exact_loss_chance", ""},
		{1, "stopped_by", "budget"},
		{1, "warnings", "One trial carries half of the sum."},
	} {
		if cell, ok := got[c.row][c.name]; !ok || cell != c.want {
			t.Errorf("row %d, %s: %q, want %q", c.row, c.name, cell, c.want)
		}
	}
}

func TestCSVWithoutCameras(t *testing.T) {
	for _, row := range rows(t, withoutCameras()) {
		for name := range row {
			if strings.HasPrefix(name, "missing") || strings.HasPrefix(name, "camera") || name == "meets_demand" || name == "retention_days" || strings.HasPrefix(name, "loss_chance_retention") {
				t.Errorf("column %s rests on cameras", name)
			}
		}
	}
}

func TestCSVLinesEndAsRFC4180Says(t *testing.T) {
	var b bytes.Buffer
	if err := compareCSV(&b, sample()); err != nil {
		t.Fatal(err)
	}
	bare := strings.ReplaceAll(b.String(), "\r\n", "")
	if strings.ContainsAny(bare, "\r\n") {
		t.Error("a line ends otherwise than by CRLF")
	}
}

func TestHarmless(t *testing.T) {
	for in, want := range map[string]string{
		"":              "",
		"8 x 12 TB":     "8 x 12 TB",
		"a=b":           "a=b",
		"=1+1":          "'=1+1",
		"+1":            "'+1",
		"-1":            "'-1",
		"@SUM(1)":       "'@SUM(1)",
		"  =1":          "'  =1",
		"\t=1":          "'\t=1",
		"\r=1":          "'\r=1",
		"＝1":            "'＝1",
		"'already":      "'already",
		"\n@x":          "'\n@x",
		"   ":           "   ",
		"\u00e9t\u00e9": "\u00e9t\u00e9",
	} {
		if got := harmless(in); got != want {
			t.Errorf("harmless(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestTidy(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{
		{0.1 + 0.2, 0.3}, {41.199999999999996, 41.2}, {72e12, 72e12}, {4.7e-300, 4.7e-300}, {0, 0},
	} {
		if got := tidy(c.in); got != c.want {
			t.Errorf("tidy(%v) = %v", c.in, got)
		}
	}
	if !math.IsNaN(tidy(math.NaN())) {
		t.Error("NaN did not stay NaN")
	}
	// What is written reads back within half a unit of the last digit.
	x := 1.0 / 3
	back, err := strconv.ParseFloat(strconv.FormatFloat(tidy(x), 'g', -1, 64), 64)
	if err != nil || math.Abs(back/x-1) > 5e-12 {
		t.Errorf("%v came back as %v: %v", x, back, err)
	}
}

// Where bit rates are estimated, the CSV says so and how the choice fares at
// either end of the range.
func TestCSVFlagsEstimates(t *testing.T) {
	r := sample()
	r.Site.Cameras[0].Picture = array.Picture{Pixels: 1920 * 1080, FramesPerSecond: 12, Codec: array.H264}
	r.Outcomes[0].Sizing.AtLow = array.Bound{Meets: true, Retention: 24 * 60}
	r.Outcomes[0].Sizing.AtHigh = array.Bound{Meets: false, Retention: 24 * 20}
	row := rows(t, r)[0]
	for name, want := range map[string]string{
		"bitrate_is": "estimated", "meets_demand_at_low_bitrate": "yes", "meets_demand_at_high_bitrate": "no",
		"retention_days_at_low_bitrate": "60", "retention_days_at_high_bitrate": "20",
	} {
		if row[name] != want {
			t.Errorf("%s is %q, want %q", name, row[name], want)
		}
	}
	if _, ok := rows(t, sample())[0]["bitrate_is"]; ok {
		t.Error("measured rates are called estimated")
	}
}
