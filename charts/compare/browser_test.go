package compare

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/array/label"
	"arrayodds/charts/chartstest"

	"github.com/chromedp/chromedp/kb"
)

func TestPageInABrowser(t *testing.T) {
	t.Parallel()
	even := sampleReport() // all of one size: the curve is on a plain scale
	even.Outcomes = even.Outcomes[:2]
	var pages []chartstest.PageCase
	for _, p := range []struct {
		name   string
		report report
	}{{"hostile", hostileReport()}, {"sample", sampleReport()}, {"even", even}} {
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
	pages[0].Wide = true
	pages[0].Last = func(t *testing.T, tab *chartstest.Tab) { checkTabulator(t, tab, hostileReport()) }
	chartstest.CheckInBrowser(t, pages...)
}

// checkTabulator holds the page of a report against that a drawing is reached by the
// tabulator; its tooltips come by arrows, in the order of the points, and go by Escape.
// After a click the arrows belong to the page.
func checkTabulator(t *testing.T, tab *chartstest.Tab, r report) {
	t.Helper()
	tab.Ask(`(document.body.tabIndex = -1, document.body.focus(), document.body.removeAttribute('tabindex'))`) // at the beginning
	const spoken, focused = `document.querySelector('body > [role=status]').textContent`, `document.activeElement.id`
	for range 50 {
		if tab.Press(kb.Tab); tab.Ask(focused) == "drawing-loss" {
			break
		}
	}
	tab.Press(kb.ArrowRight)
	first := tab.Ask(spoken)
	if want := label.OneLine(r.Outcomes[0].Choice.Label); tab.Ask(focused) != "drawing-loss" || !strings.Contains(first, want) || !strings.Contains(first, " (1 of ") {
		t.Errorf("at %s is spoken %q, want %q in it", tab.Ask(focused), first, want)
	}
	tab.Press(kb.ArrowDown)
	if second := tab.Ask(spoken); second == first || !strings.Contains(second, " (2 of ") {
		t.Errorf("behind it is spoken %q", second)
	}
	tab.Press(kb.ArrowUp)
	if again := tab.Ask(spoken); again != first {
		t.Errorf("back is spoken %q, want %q", again, first)
	}
	tab.Press(kb.Escape)
	if left := tab.Ask(focused) + tab.Ask(spoken); left != "" {
		t.Errorf("Escape leaves %q", left)
	}
	tab.Press(kb.Tab)
	if at := tab.Ask(focused); at != "drawing-cost" {
		t.Errorf("behind the first drawing is %s", at)
	}
	const corner = `(d => { d.scrollIntoView(); const r = d.getBoundingClientRect(); return [r.left + 3, r.top + 3]; })(document.getElementById('drawing-loss'))`
	var x, y float64
	if _, err := fmt.Sscanf(tab.Ask(corner), "%g,%g", &x, &y); err != nil {
		t.Fatal(err)
	}
	tab.Click(x, y)
	tab.Press(kb.ArrowRight)
	if said := tab.Ask(spoken); tab.Ask(focused) != "drawing-loss" || said != "" {
		t.Errorf("after a click at %s an arrow says %q", tab.Ask(focused), said)
	}
}
