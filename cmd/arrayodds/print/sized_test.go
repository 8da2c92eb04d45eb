package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
)

// estimatedSite is made with its first group's bit rate estimated: 4 Mbit/s likely,
// 2 to 8.
func estimatedSite() array.Site {
	s, _ := made()
	p := array.Picture{Pixels: 2e6, FramesPerSecond: 25, Codec: array.H264}
	s.Cameras[0].Picture = p
	_, s.Cameras[0].BitRate, _ = p.BitRate()
	return s
}

func TestFewest(t *testing.T) {
	s := estimatedSite()
	small := array.Drive{Label: "a small drive\x1b of which nothing is known", Capacity: 1e12, Transfer: 2e8, Price: math.NaN(), Power: math.NaN()}
	recorder := &array.Recorder{Price: 24000, Bays: 160, IdlePower: math.NaN(), Link: 8e9}
	z := Sized{Site: s, Recorder: recorder, Bays: 160, LeftOut: []string{"a slow drive is left out."}}
	z.All = s.Fit([]array.Drive{small, s.Choices[0].Drive}, array.LayoutsToFit(s.Choices), s.Choices[0].Care, recorder, 160)
	for _, f := range array.Cheapest(z.All) {
		f.Choice.Label = f.Layout.String() + " of the others"
		z.Suggested = append(z.Suggested, f.Choice)
	}
	var b strings.Builder
	if err := Fewest(&b, z); err != nil {
		t.Fatal(err)
	}
	golden(t, "sized.txt", b.String())
}

func TestJudgedOnEstimates(t *testing.T) {
	s := estimatedSite()
	s.Choices[0].Drives = 80 // 960 TB: 778 are needed at least, 1 555 likely, 3 111 at most
	var sizes []array.Sizing
	for _, c := range s.Choices {
		z, err := s.Size(c)
		if err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, z)
	}
	var b strings.Builder
	if err := Judged(&b, &site.File{Site: s}, sizes); err != nil {
		t.Fatal(err)
	}
	golden(t, "estimated.txt", b.String())
}
