package export

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/fleet"
	"arrayodds/sim/now"

	"github.com/xuri/excelize/v2"
)

func fleetSample() fleet.Result {
	year := fleet.Year{Drives: 16, Failures: estimate.FromInterval(0.4, 0.38, 0.42), Most: estimate.FromInterval(2, 2, 2), Owed: 1}
	return fleet.Result{
		Name: "customers", Sites: 1, Degraded: 1, Whole: 1, Replicates: 400, Seed: 7, Year: year,
		Losses: estimate.FromInterval(0.001, 0.0009, 0.0011), OfDegraded: estimate.FromInterval(0.001, 0.0009, 0.0011),
		Models: []fleet.Model{{Label: "=8 TB", Arrays: 2, Year: year}},
		Arrays: []fleet.Standing{
			{Name: "north/a", Site: "North", SiteAt: "north/site.toml", Choice: "c", Model: "=8 TB", Drives: 8, Down: 1, Tolerance: 1, AreDown: []int{3},
				Loss: estimate.FromInterval(0.001, 0.0009, 0.0011), BeforeWhole: estimate.FromInterval(0.0009, 0.0008, 0.001),
				Best:     &now.Action{Name: "Let the rebuild go first", Loss: estimate.FromInterval(0.0004, 0.0003, 0.0005), Ratio: estimate.FromInterval(0.4, 0.35, 0.45)},
				TakesOff: estimate.FromInterval(0.0006, 0.0005, 0.0007), Advice: "Let the rebuild go first", CameraDays: 240,
				Failures: estimate.FromInterval(0.2, 0.19, 0.21), Owed: 1, Lives: 512},
			{Name: "north/b", Site: "North", SiteAt: "north/site.toml", Choice: "c", Model: "=8 TB", Drives: 8, Tolerance: 1,
				Loss: estimate.Unseen(512, 1), BeforeWhole: estimate.Exact(0), TakesOff: estimate.Exact(0), CameraDays: math.NaN(),
				Failures: estimate.FromInterval(0.2, 0.19, 0.21), Lives: 512, Warnings: []string{"w1", "w2"}},
		},
	}
}

func TestFleetJSON(t *testing.T) {
	var b bytes.Buffer
	if err := fleetJSON(&b, fleetSample()); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Fleet string
		Year  struct {
			Spares struct{ Value float64 } `json:"spares_to_have"`
		}
		Arrays []struct {
			Name   string
			Down   []int    `json:"drives_down"`
			Best   *string  `json:"best_action"`
			Stake  *float64 `json:"camera_days_at_stake"`
			Loss   struct{ Value, High float64 }
			Takes  struct{ Value, Low, High float64 }   `json:"takes_off"`
			Chance struct{ Value, Low, High float64 }   `json:"loss_chance_30_days"`
			With   struct{ Value float64 }              `json:"loss_chance_30_days_with_it"`
			Ratio  *struct{ Value, Low, High *float64 } `json:"ratio"`
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	a, c := got.Arrays[0], got.Arrays[1]
	if got.Fleet != "customers" || got.Year.Spares.Value != 3 || len(got.Arrays) != 2 {
		t.Errorf("%+v", got)
	}
	if a.Best == nil || *a.Best != "Let the rebuild go first" || a.Takes.Value != 0.0006 || a.With.Value != 0.0004 || *a.Ratio.Value != 0.4 || *a.Stake != 240 || a.Down[0] != 3 {
		t.Errorf("%+v", a)
	}
	// What was not seen has an upper end, what is not known is null, and an empty list no null.
	if c.Best != nil || c.Ratio != nil || c.Stake != nil || c.Down == nil || c.Chance.Value != 0 || !(c.Chance.High > 0) || c.With.Value != 0 {
		t.Errorf("%+v", c)
	}
}

func TestFleetTables(t *testing.T) {
	var b bytes.Buffer
	if err := fleetCSV(&b, fleetSample()); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v, %d rows", err, len(rows))
	}
	cell := func(row int, name string) string {
		for i, head := range rows[0] {
			if head == name {
				return rows[row][i]
			}
		}
		t.Fatalf("no column %s in %q", name, rows[0])
		return ""
	}
	for _, c := range []struct {
		row        int
		name, want string
	}{
		{1, "place", "1"}, {1, "array", "north/a"}, {1, "drive", "'=8 TB"}, {1, "drives_down", "3"}, {1, "takes_off", "0.0006"}, {1, "stands_more", "0"},
		{2, "place", "2"}, {2, "drives_down", ""}, {2, "camera_days_at_stake", ""}, {2, "loss_chance_30_days", "0"}, {2, "lost", "no"}, {2, "warnings", "w1; w2"}, {2, "do_first", ""},
	} {
		if got := cell(c.row, c.name); got != c.want {
			t.Errorf("row %d, %s: %q, want %q", c.row, c.name, got, c.want)
		}
	}
	b.Reset()
	if err := fleetXLSX(&b, fleetSample()); err != nil {
		t.Fatal(err)
	}
	book, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	if names := strings.Join(book.GetSheetList(), ", "); names != "Arrays, Drive models, About" {
		t.Errorf("sheets %s", names)
	}
	if got, err := book.GetCellValue("Drive models", "A3"); err != nil || got != "All" {
		t.Errorf("%v, %q", err, got)
	}
}
