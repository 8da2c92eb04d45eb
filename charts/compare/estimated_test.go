package compare

import (
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/study"
)

// TestEstimatesAreFlagged: a report on estimated bit rates says so in its
// summary, its table and its cautions, with the range; another one nowhere.
func TestEstimatesAreFlagged(t *testing.T) {
	t.Parallel()
	r := sampleReport()
	said := []string{"rests on estimated bit rates", "Bit rates of Ramps and quay are estimated", "not at the high end of the estimated demand",
		"at the high end of the estimated demand too", "at the low end of the estimated demand alone", "Would not hold it at the low end", ", estimated", "At the ends of the estimated bit rates"}
	text := chartstest.Render(t, r.contents(), chartstest.StandIn)
	for _, s := range said {
		if strings.Contains(text, s) {
			t.Errorf("without estimates the page says %q", s)
		}
	}
	c := &r.Site.Cameras[0]
	c.Picture = array.Picture{Pixels: 3e6, FramesPerSecond: 25, Codec: array.H264}
	_, c.BitRate, _ = c.Picture.BitRate() // 6 Mbit/s, 3 to 12
	for i, o := range r.Outcomes {
		z, err := r.Site.Size(o.Choice)
		if err != nil {
			t.Fatal(err)
		}
		r.Outcomes[i].Sizing = z
	}
	// The first group takes 46.656 TB, half or twice that at the ends.
	rest := r.Site.Demand().Needed - 46.656e12
	if low, high := r.Site.Lowest().Demand().Needed, r.Site.Highest().Demand().Needed; low < rest+23.3e12 || low > rest+23.4e12 || high < rest+93.3e12 || high > rest+93.4e12 {
		t.Errorf("%v to %v bytes", low, high)
	}
	text = chartstest.Render(t, r.contents(), chartstest.StandIn)
	// A choice that of 20 drives more holds the high end too.
	r.Outcomes[0].Sizing = sizedWith(t, r, r.Outcomes[0], 20)
	text += chartstest.Render(t, r.contents(), chartstest.StandIn)
	for _, s := range said {
		if !strings.Contains(text, s) {
			t.Errorf("the page does not say %q", s)
		}
	}
}

// sizedWith is the sizing of a choice with so many drives more.
func sizedWith(t *testing.T, r report, o study.Outcome, more int) array.Sizing {
	t.Helper()
	o.Choice.Drives += more
	z, err := r.Site.Size(o.Choice)
	if err != nil {
		t.Fatal(err)
	}
	return z
}
