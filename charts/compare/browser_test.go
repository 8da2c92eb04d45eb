package compare

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/array/label"
	"arrayodds/charts/chartstest"
)

func TestPageInABrowser(t *testing.T) {
	ctx := chartstest.Browser(t)
	var wrong chartstest.Complaints
	wrong.Listen(t, ctx)
	even := sampleReport() // all of one size: the curve is on a plain scale
	even.Outcomes = even.Outcomes[:2]
	for _, p := range []struct {
		name   string
		report report
	}{{"sample", sampleReport()}, {"hostile", hostileReport()}, {"even", even}} {
		path := chartstest.KeepPage(t, p.name+".html", p.report.contents())
		for _, width := range []int64{390, 768, 1280} {
			t.Run(fmt.Sprintf("%s at %d", p.name, width), func(t *testing.T) {
				s := chartstest.Visit(t, ctx, path, width, 900)
				wrong.Check(t)
				s.Check(t, 4, 2*len(p.report.Outcomes), 5)
				for i := range p.report.Outcomes {
					for _, d := range s.Drawings {
						if rows := d.ID == "drawing-loss" || d.ID == "drawing-causes"; rows && !chartstest.Starts(d.Texts, fmt.Sprintf("%d ·", i+1)) {
							t.Errorf("%s: row %d has no name", d.ID, i+1)
						}
					}
				}
				if label := label.OneLine(p.report.Outcomes[0].Choice.Label); !strings.Contains(s.Tip, label) {
					t.Errorf("the tooltip says %q, want the label %q in it", s.Tip, label)
				}
			})
		}
	}
}
