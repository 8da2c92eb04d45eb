package sizing

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
)

// terminal is 10 cameras of 8 Mbit/s kept for 30 days: 25.92 TB, in 3 drives' worth of
// 10 TB.
func terminal(life array.Life) *site.File {
	return &site.File{
		Care:     array.Care{RebuildFloor: 1e7, RebuildShare: 0.5, Scrub: array.Fixed{Hours: 730}},
		Recorder: &array.Recorder{Price: math.NaN(), IdlePower: math.NaN(), Bays: 5, Link: 1e9, WriteLimit: 12.5e6, Licences: &array.Licences{Included: 8, Each: 45}},
		Site: array.Site{ServiceLife: 43800, Currency: "EUR",
			Cameras: []array.Cameras{{Label: "Quay", Count: 10, BitRate: 8e6, HoursPerDay: 24, Activity: 1, Retention: 720}},
			Drives:  []array.Drive{{Label: "10 TB", Capacity: 10e12, Transfer: 2e8, Price: 200, Power: 7, Life: life, HazardMultiplier: 2, Rated: 300e12}}},
	}
}

// By hand, RAID 6 of 5: 315.36 TB a year over 3 drives' worth are 105.12 TB, a scrub every
// 730 h is 120 TB, and f failures a year are f × 4 × 10 TB. The rate of a record of k
// failures in D drive-years is (k + ½) ÷ D on average (Jeffreys' prior), a Weibull life's
// of shape 2 and scale 87 600 h comes to (43 800 ÷ 87 600)² in five years; all of them
// doubled here.
func TestWear(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		life     array.Life
		failures float64
	}{
		"rate":    {array.ConstantRate{AFR: 0.015}, 0.03},
		"record":  {array.FieldRecord{Failures: 9.5, DriveDays: 365 * 1000}, 0.02},
		"Weibull": {array.WeibullLife{Shape: 2, Scale: 87600}, 2 * 0.25 / 5},
	} {
		z := Suggest(terminal(c.life), 0, 0)
		for _, f := range z.Fittings {
			if f.Layout.Level != array.RAID6 {
				continue
			}
			w := z.Workload(f)
			want := array.Workload{Footage: 105.12e12, Scrubs: 120e12, Rebuilds: c.failures * 40e12}
			if math.Abs(w.Total()/want.Total()-1) > 1e-9 || math.Abs(w.Rebuilds/want.Rebuilds-1) > 1e-9 || math.Abs(z.Rated(f)-want.Total()/300e12) > 1e-9 {
				t.Errorf("%s: %+v, want %+v", name, w, want)
			}
		}
	}
}

// What may be stated of the recorder and the drives is said, and nothing of what is not.
func TestWords(t *testing.T) {
	t.Parallel()
	f := terminal(array.ConstantRate{AFR: 0.015})
	z := Suggest(f, 0, 1)
	for text, want := range map[string]string{
		z.WriteLimitWords():                     "Writing: 10 MB/s at the peak, of the recorder's limit of 12.5 MB/s: 20 % of it stays free.",
		z.NetworkWords():                        "Network: 80 Mbit/s when every camera records at once, of a link of 1 Gbit/s: 92 % of it stays free.",
		z.RatingWords():                         "at the site's interval (30.4 d)",
		z.CountedWords():                        "With 1 hot spare beside the drives, counted in the bays, the cost and the power; room for growth is not counted. In the cost are 90\u00a0EUR for the licences of 2 cameras. By custom groups have at most 8 drives with single parity",
		Suggest(f, 2, 0).NoneWords():            "Nothing fits in 2 bays",
		Suggest(f, 0, 1).Choices[0].Label + ".": "JBOD, 3 x 10 TB, hot spare.",
		Suggest(f, 0, 2).Choices[0].Label + ".": "JBOD, 3 x 10 TB, 2 hot spares.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not say %q", text, want)
		}
	}
	f.Recorder, f.Site.Drives[0].Rated, f.Site.Growth = nil, 0, 0.25
	f.Site.Widths = map[array.Level]int{array.RAID6: 9}
	z = Suggest(f, 0, 0)
	if z.WriteLimitWords() != "" || z.RatingWords() != "" || z.EstimatedWords() != "" || z.NoneWords() != "" || z.LicenceCost() != 0 {
		t.Error("something is said of what is not stated")
	}
	if got := z.CountedWords(); !strings.Contains(got, "room to grow of 25 % is counted") || !strings.Contains(got, "9 with double") || !strings.Contains(got, "as the site file has it") {
		t.Errorf("%q", got)
	}
}

// For 195 TB in 16 bays RAID 6 of 16 drives of 14 TB is suggested, which is wider than is
// customary, where 18 in two groups do not fit.
func TestWiderIsSuggestedWhereNothingElseFits(t *testing.T) {
	t.Parallel()
	f := terminal(array.ConstantRate{AFR: 0.015})
	f.Site.Cameras[0].BitRate *= 195 / 25.92
	f.Site.Drives[0].Capacity, f.Recorder.Bays = 14e12, 16
	z := Suggest(f, 0, 0)
	for _, x := range z.Fittings {
		if x.Layout.Level == array.RAID6 && x.Customary == (z.Suggested(x) > 0) {
			t.Errorf("%+v is suggested: %d", x.Choice, z.Suggested(x))
		}
	}
	for _, c := range z.Choices {
		if c.Layout.Level == array.RAID6 && c.Drives != 16 {
			t.Errorf("%+v", c)
		}
	}
}
