package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/sizing"
)

func TestSize(t *testing.T) {
	s := estimatedSite()
	small := array.Drive{Label: "a small drive\x1b of which nothing is known", Capacity: 1e12, Transfer: 2e8, Price: math.NaN(), Power: math.NaN()}
	recorder := &array.Recorder{Price: 24000, Bays: 160, IdlePower: math.NaN(), Link: 8e9}
	z := sized(s, []array.Drive{small, s.Choices[0].Drive}, recorder, 0)
	z.LeftOut = []string{"a slow drive is left out."}
	var b strings.Builder
	if err := Size(&b, z); err != nil {
		t.Fatal(err)
	}
	golden(t, "size.txt", b.String())
}

// Room to grow, hot spares, licences, a write limit and a rating that are exceeded, and
// layouts that do not fit.
func TestSizeWithAllThatMayBeStated(t *testing.T) {
	s := estimatedSite()
	s.Growth, s.Currency = 0.25, "EUR"
	s.Widths = map[array.Level]int{array.RAID5: 10}
	drive := s.Choices[0].Drive
	drive.Rated, drive.Life, drive.HazardMultiplier = 550e12, array.ConstantRate{AFR: 0.02}, 1
	recorder := &array.Recorder{Price: 24000, IdlePower: math.NaN(), Link: 8e9, WriteLimit: 600e6, Licences: &array.Licences{Included: 10, Each: 45}}
	for _, c := range []struct {
		name string
		bays int
	}{{"size-tight.txt", 175}, {"size-none.txt", 6}} {
		z := sized(s, []array.Drive{drive}, recorder, c.bays)
		z.Spares, z.Care.Scrub = 2, array.Fixed{Hours: 336}
		z.Fittings = s.Fit([]array.Drive{drive}, array.LayoutsToFit(s.Choices), z.Care, recorder, c.bays, z.Spares)
		z.Short = s.Shortfalls([]array.Drive{drive}, array.LayoutsToFit(s.Choices), z.Care, recorder, c.bays, z.Spares)
		var b strings.Builder
		if err := Size(&b, z); err != nil {
			t.Fatal(err)
		}
		golden(t, c.name, b.String())
	}
}

func sized(s array.Site, drives []array.Drive, recorder *array.Recorder, bays int) sizing.Suggestions {
	if bays == 0 {
		bays = recorder.Bays
	}
	z := sizing.Suggestions{Site: s, Care: s.Choices[0].Care, Recorder: recorder, Bays: bays}
	layouts := array.LayoutsToFit(s.Choices)
	z.Fittings = s.Fit(drives, layouts, z.Care, recorder, bays, 0)
	z.Short = s.Shortfalls(drives, layouts, z.Care, recorder, bays, 0)
	for _, f := range array.Cheapest(z.Fittings) {
		f.Choice.Label = f.Layout.String() + " of the others"
		z.Choices = append(z.Choices, f.Choice)
	}
	return z
}
