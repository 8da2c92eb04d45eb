package compare

import (
	"fmt"
	"testing"

	"arrayodds/array/label"
	"arrayodds/charts/chartstest"
)

func TestPageInABrowser(t *testing.T) {
	t.Parallel()
	even := sampleReport() // all of one size: the curve is on a plain scale
	even.Outcomes = even.Outcomes[:2]
	var pages []chartstest.PageCase
	for _, p := range []struct {
		name   string
		report report
	}{{"sample", sampleReport()}, {"hostile", hostileReport()}, {"even", even}} {
		n := len(p.report.Outcomes)
		pages = append(pages, chartstest.PageCase{Name: p.name, Contents: p.report.contents(), Drawings: 4, Shapes: 2 * n, Texts: 5,
			TipOf: "loss", Tip: label.OneLine(p.report.Outcomes[0].Choice.Label),
			Check: func(t *testing.T, _ *chartstest.Tab, s chartstest.Seen) {
				for _, d := range s.Drawings {
					for i := range n {
						if (d.ID == "loss" || d.ID == "causes") && !d.Says(fmt.Sprintf("%d ·", p.report.places[i]+1)) {
							t.Errorf("at %d pixels row %d of %s has no name", s.Width, i+1, d.ID)
						}
					}
				}
			}})
	}
	chartstest.CheckInBrowser(t, pages...)
}
