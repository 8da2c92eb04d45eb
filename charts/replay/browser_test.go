package replay

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/trace"
)

func TestReplayedPageInABrowser(t *testing.T) {
	t.Parallel()
	// Three lives of other kinds, of a choice whose names are markup.
	kinds := replayedSample().withLives(stopLife(), jbodLife(), stripedLife())
	kinds.Choice.Care.Stop = true
	kinds.Site.Name, kinds.Choice.Label = chartstest.Hostile, chartstest.Hostile
	var pages []chartstest.PageCase
	for _, p := range []struct {
		name     string
		content  lives
		drawings int
	}{{"replayed", replayedSample(), 8}, {"replayed-vast", replayedSample().withLives(vastLife()), 5}, {"replayed-kinds", kinds, 11}} {
		pages = append(pages, chartstest.PageCase{Name: p.name, Contents: p.content.contents(), Drawings: p.drawings, Shapes: 4, Texts: 5, TipOf: "close-1", Tip: "day "})
	}
	chosen := ""
	pages[0].Check = func(t *testing.T, tab *chartstest.Tab, s chartstest.Seen) {
		checkTimeLines(t, tab, s)
		drawn := sliders{tab, true}
		if chosen == "" {
			drawn.check(t)
			chosen = drawn.figures()
			return
		}
		checkKept(t, s)
	}
	pages[0].Last = func(t *testing.T, tab *chartstest.Tab) {
		if thorough.Asked() { // drawn anew for paper and then for the screen
			checkPaper(t, sliders{tab, true}, chosen)
		}
		checkPlayer(t, tab)
	}
	chartstest.CheckInBrowser(t, pages...)
}

// checkTimeLines holds the time lines of lossLife against that every bay has its name,
// and every state its form.
func checkTimeLines(t *testing.T, tab *chartstest.Tab, s chartstest.Seen) {
	l := lossLife()
	for _, d := range s.Drawings {
		if d.ID != "life-1" && d.ID != "close-1" {
			continue
		}
		for b := range l.Bays {
			if !d.Says(fmt.Sprintf("bay %d", b+1)) {
				t.Errorf("at %d pixels bay %d of %s has no name", s.Width, b+1, d.ID)
			}
		}
		if !d.Says("loss 1") {
			t.Errorf("at %d pixels the loss of %s has no name", s.Width, d.ID)
		}
	}
	for _, look := range stateLooks {
		if !slices.ContainsFunc(l.Spans, func(s trace.Span) bool { return s.State == look.State }) {
			continue
		}
		n := tab.Ask(fmt.Sprintf(`document.querySelectorAll('#drawing-close-1 svg [stroke=%[1]q], #drawing-close-1 svg [fill=%[1]q]').length`, look.Colour))
		if n == "0" {
			t.Errorf("at %d pixels nothing is drawn as %s", s.Width, look.Text)
		}
	}
}

// sliders is the page with its sliders: what its figures say, and with the chart
// script the outline of what is drawn.
type sliders struct {
	*chartstest.Tab
	drawn bool
}

func (s sliders) figures() string {
	text := s.Ask(`[...document.querySelectorAll('.readouts dd, .sliders output')].map(x => x.textContent).join(' | ')`)
	return strings.ReplaceAll(text, "\u202f", " ")
}

func (s sliders) outline() string {
	if !s.drawn {
		return ""
	}
	return s.Ask(`[...document.querySelectorAll('#drawing-slow-done svg path, #drawing-slow-chances svg path')].map(p => p.getAttribute('d')).join(' ')`)
}

// check moves each slider and holds what is said, and drawn, against what was before
// and against texts that only Go makes.
func (s sliders) check(t *testing.T) {
	t.Helper()
	before, lines := s.figures(), s.outline()
	for _, m := range []struct {
		slider string
		value  int
		want   []string
	}{
		{"slow-size", 4, []string{"24 TB", "39 h", "65 h"}},
		{"slow-wait", 5, []string{"168 h (7 days)", "207 h"}},
		{"slow-hour", 160, []string{"160 h", "not begun, waiting for the drive", "0 B"}},
	} {
		s.Move(m.slider, m.value)
		now, drawn := s.figures(), s.outline()
		if now == before {
			t.Errorf("%s: moving it changes no figure: %s", m.slider, now)
		}
		for _, want := range m.want {
			if !strings.Contains(now, want) {
				t.Errorf("%s: the figures are %s, want %q among them", m.slider, now, want)
			}
		}
		if s.drawn && drawn == lines {
			t.Errorf("%s: moving it changes no drawing", m.slider)
		}
		before, lines = now, drawn
	}
	if got := s.Ask(`document.getElementById('slow-wait').getAttribute('aria-valuetext')`); !strings.Contains(got, "168") {
		t.Errorf("the slider is read as %q", got)
	}
}

// Moving a slider changes the figures where there are no drawings too.
func TestSlidersWithoutDrawings(t *testing.T) {
	t.Parallel()
	bare := sliders{chartstest.NewTab(t), false}
	bare.ShowBare("slow-bare", replayedSample().contents(), 1280)
	bare.check(t)
}

// checkKept holds drawings against that they keep to what the sliders chose at another
// width.
func checkKept(t *testing.T, s chartstest.Seen) {
	t.Helper()
	for _, d := range s.Drawings {
		if strings.HasPrefix(d.ID, "slow") && (d.Beyond > 1 || !d.Says("256") && !d.Says("192")) {
			t.Errorf("after a resize %s has lost what the sliders chose: %+v", d.ID, d)
		}
	}
}

// checkPaper holds the page against that on paper stands the choice's own case, and after
// it what was chosen.
func checkPaper(t *testing.T, s sliders, chosen string) {
	t.Helper()
	s.Ask(`window.dispatchEvent(new Event('beforeprint'))`)
	if got := s.figures(); !strings.Contains(got, "12 TB") || !strings.Contains(got, "26 h") {
		t.Errorf("on paper stands %s", got)
	}
	s.Ask(`window.dispatchEvent(new Event('afterprint'))`)
	if got := s.figures(); got != chosen {
		t.Errorf("after printing stands %s, not %s", got, chosen)
	}
}
