package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/study"
)

func TestSize(t *testing.T) {
	s := estimatedSite()
	small := array.Drive{Label: "a small drive\x1b of which nothing is known", Capacity: 1e12, Transfer: 2e8, Price: math.NaN(), Power: math.NaN()}
	recorder := &array.Recorder{Price: 24000, Bays: 160, IdlePower: math.NaN(), Link: 8e9}
	z := study.Suggestions{Site: s, Recorder: recorder, Bays: 160, LeftOut: []string{"a slow drive is left out."}}
	z.Fittings = s.Fit([]array.Drive{small, s.Choices[0].Drive}, array.LayoutsToFit(s.Choices), s.Choices[0].Care, recorder, 160, 0)
	for _, f := range array.Cheapest(z.Fittings) {
		f.Choice.Label = f.Layout.String() + " of the others"
		z.Choices = append(z.Choices, f.Choice)
	}
	var b strings.Builder
	if err := Size(&b, z); err != nil {
		t.Fatal(err)
	}
	golden(t, "size.txt", b.String())
}
