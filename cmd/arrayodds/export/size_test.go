package export

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/sizing"
)

// lock is a site whose footage 200 drives of 4 TB hold, and its drive without a price.
func lock(bays int) sizing.Suggestions {
	return sizing.Suggest(&site.File{
		Care:     array.Care{RebuildFloor: 1e7, RebuildShare: 0.5},
		Recorder: &array.Recorder{Price: math.NaN(), IdlePower: math.NaN(), Bays: bays},
		Site: array.Site{Name: "Lock", ServiceLife: 43800, Growth: 0.25,
			Cameras: []array.Cameras{{Label: "Lock", Count: 10, BitRate: 200e6, HoursPerDay: 24, Activity: 1, Retention: 710.4}},
			Drives:  []array.Drive{{Label: "=4 TB", Capacity: 4e12, Transfer: 2e8, Price: math.NaN(), Power: math.NaN(), Life: array.ConstantRate{AFR: 0.01}, HazardMultiplier: 1}}},
	}, 0, 1)
}

// What is not known, does not exist or does not fit is null, and the figures are those of
// the sizing: 639.36 TB, and 799.2 TB with a quarter more, in 200 drives' worth.
func TestSizeJSON(t *testing.T) {
	for _, bays := range []int{0, 2, 1000} {
		var b bytes.Buffer
		if err := sizeJSON(&b, lock(bays)); err != nil {
			t.Fatal(err)
		}
		var got struct {
			Format int
			Demand struct {
				Needed float64 `json:"needed_bytes"`
				Growth float64
				Room   float64 `json:"room_bytes"`
			}
			Recorder struct {
				Bays  *int
				Limit *float64 `json:"write_limit_free_share"`
			}
			Designs []struct {
				Layout   string
				Drives   *int
				Fits     bool
				Cost     *float64 `json:"purchase_cost"`
				Workload *struct {
					Footage float64  `json:"footage_bytes_per_year"`
					Share   *float64 `json:"share_of_rating"`
				}
			}
			Short []struct {
				Layout string
				Drives *int
				Enough struct {
					Drive *float64 `json:"drive_bytes"`
					Bays  *int
				}
			}
		}
		if err := json.Unmarshal(b.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		if got.Format != 1 || got.Demand.Needed != 639.36e12 || got.Demand.Growth != 0.25 || got.Demand.Room != 799.2e12 || (got.Recorder.Bays == nil) != (bays == 0) || got.Recorder.Limit != nil {
			t.Errorf("%d bays: %+v", bays, got)
		}
		if d := got.Designs[0]; d.Layout != "JBOD" || *d.Drives != 200 || d.Fits != (bays != 2) || d.Cost != nil || math.Abs(d.Workload.Footage-250e6*8760*3600/200) > 1 || d.Workload.Share != nil {
			t.Errorf("%d bays: %+v", bays, d)
		}
		if (len(got.Short) == 0) != (bays != 2) {
			t.Errorf("%d bays: %d layouts do not fit", bays, len(got.Short))
		}
		if bays == 2 {
			if s := got.Short[0]; s.Layout != "JBOD" || *s.Drives != 1 || *s.Enough.Drive != 799.2e12 || *s.Enough.Bays != 201 {
				t.Errorf("%+v", s)
			}
			if s := got.Short[len(got.Short)-1]; s.Drives != nil || s.Enough.Drive != nil || s.Enough.Bays == nil {
				t.Errorf("%+v", s)
			}
		}
	}
}

func TestSizeCSV(t *testing.T) {
	var b bytes.Buffer
	if err := sizeCSV(&b, lock(0)); err != nil {
		t.Fatal(err)
	}
	rows := strings.Split(b.String(), "\r\n")
	if want := "'=4 TB,JBOD,200,200,200,1,1,yes,yes,yes,800,"; !strings.HasPrefix(rows[1], want) {
		t.Errorf("%s\nwant %s", rows[1], want)
	}
	if n := len(lock(0).Fittings); len(rows) != n+2 {
		t.Errorf("%d rows of %d fittings", len(rows)-2, n)
	}
}
