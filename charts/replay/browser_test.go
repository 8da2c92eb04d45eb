package replay

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/sim/trace"

	"github.com/chromedp/chromedp"
)

// path is the outline of all that a drawing holds.
func outline(t *testing.T, ctx context.Context, drawing string) string {
	t.Helper()
	return chartstest.Ask(t, ctx, fmt.Sprintf(`[...document.querySelectorAll('#drawing-%s svg path')].map(p => p.getAttribute('d')).join(' ')`, drawing))
}

func TestReplayedPageInABrowser(t *testing.T) {
	ctx := chartstest.Browser(t)
	var wrong chartstest.Complaints
	wrong.Listen(t, ctx)
	r := replayedSample()
	evil := replayedSample()
	evil.Site.Name, evil.Choice.Label = chartstest.Hostile, chartstest.Hostile
	stop := r.withLives(stopLife(), jbodLife(), stripedLife())
	stop.Choice.Care.Stop = true
	for _, p := range []struct {
		name     string
		content  lives
		drawings int
	}{{"replayed", r, 8}, {"replayed-hostile", evil, 8}, {"replayed-kinds", stop, 11}, {"replayed-vast", r.withLives(vastLife()), 5}} {
		path := chartstest.KeepPage(t, p.name+".html", p.content.contents())
		for _, width := range []int64{390, 1280} {
			t.Run(fmt.Sprintf("%s at %d", p.name, width), func(t *testing.T) {
				s := chartstest.OpenPage(t, ctx, path, width, "close-1")
				wrong.Check(t)
				s.Check(t, p.drawings, 4, 5)
				if !strings.Contains(s.Tip, "day ") {
					t.Errorf("the tooltip says %q", s.Tip)
				}
			})
		}
	}
}

// Every bay that is drawn has its name, and every state its form.
func TestTimeLinesInABrowser(t *testing.T) {
	ctx := chartstest.Browser(t)
	var wrong chartstest.Complaints
	wrong.Listen(t, ctx)
	path := chartstest.KeepPage(t, "replayed-lines.html", replayedSample().withLives(lossLife()).contents())
	s := chartstest.OpenPage(t, ctx, path, 1280, "close-1")
	wrong.Check(t)
	for _, d := range s.Drawings {
		if d.ID != "drawing-life-1" && d.ID != "drawing-close-1" {
			continue
		}
		for b := range lossLife().Bays {
			if !chartstest.Starts(d.Texts, fmt.Sprintf("bay %d", b+1)) {
				t.Errorf("%s: bay %d has no name", d.ID, b+1)
			}
		}
		if !chartstest.Starts(d.Texts, "loss 1") {
			t.Errorf("%s: the loss has no name", d.ID)
		}
	}
	for _, l := range stateLooks {
		used := false
		for _, span := range lossLife().Spans {
			used = used || span.State == l.State && l.State != trace.Running
		}
		n := chartstest.Ask(t, ctx, fmt.Sprintf(`[...document.querySelectorAll('#drawing-close-1 svg [stroke=%q], #drawing-close-1 svg [fill=%q]')].length`, l.Colour, l.Colour))
		if used && n == "0" {
			t.Errorf("nothing is drawn as %s", l.Text)
		}
	}
}

// Moving a slider changes the figures and the drawings, with and without them.
func TestSlowMotionMoves(t *testing.T) {
	ctx := chartstest.Browser(t)
	var wrong chartstest.Complaints
	wrong.Listen(t, ctx)
	r := replayedSample()
	with := chartstest.KeepPage(t, "slow.html", r.contents())
	without := chartstest.KeepBarePage(t, "slow-bare.html", r.contents())
	figures := func() string {
		return chartstest.Ask(t, ctx, `[...document.querySelectorAll('.readouts dd, .sliders output')].map(x => x.textContent).join(' | ')`)
	}
	for _, path := range []string{with, without} {
		for _, width := range []int64{390, 1280} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("file://"+path)); err != nil {
				t.Fatal(err)
			}
			before := figures()
			lines := ""
			if path == with {
				lines = outline(t, ctx, "slow-done") + outline(t, ctx, "slow-chances")
			}
			for _, m := range []struct {
				slider string
				value  int
				want   []string // texts that only Go makes
			}{
				{"slow-size", 4, []string{"24 TB", "39 h", "65 h"}},
				{"slow-wait", 5, []string{"168 h (7 days)", "207 h"}},
				{"slow-hour", 160, []string{"160 h", "not begun, waiting for the drive", "0 B"}},
			} {
				chartstest.Moves(t, ctx, m.slider, m.value)
				now := figures()
				if now == before {
					t.Errorf("%s at %d: moving it changes no figure: %s", m.slider, width, now)
				}
				for _, want := range m.want {
					if !strings.Contains(strings.ReplaceAll(now, "\u202f", " "), want) {
						t.Errorf("%s at %d: the figures are %s, want %q among them", m.slider, width, now, want)
					}
				}
				before = now
				if path == with {
					drawn := outline(t, ctx, "slow-done") + outline(t, ctx, "slow-chances")
					if drawn == lines {
						t.Errorf("%s at %d: moving it changes no drawing", m.slider, width)
					}
					lines = drawn
				}
			}
			if got := chartstest.Ask(t, ctx, `document.getElementById('slow-wait').getAttribute('aria-valuetext')`); !strings.Contains(got, "168") {
				t.Errorf("the slider is read as %q", got)
			}
			if path == with {
				if err := chromedp.Do(ctx, chromedp.EmulateViewport(768, 900)); err != nil {
					t.Fatal(err)
				}
				chartstest.Ask(t, ctx, `window.dispatchEvent(new Event('resize'))`) // the browser's own may come later
				for _, d := range chartstest.LookAgain(t, ctx, "held-1").Drawings {
					if strings.HasPrefix(d.ID, "drawing-slow") && (d.Out > 1 || !chartstest.Starts(d.Texts, "256") && !chartstest.Starts(d.Texts, "192")) {
						t.Errorf("after a resize %s has lost what the sliders chose: %+v", d.ID, d)
					}
				}
				// On paper stands the choice's own case, and after it what was chosen.
				chosen := figures()
				chartstest.Ask(t, ctx, `window.dispatchEvent(new Event('beforeprint'))`)
				if got := figures(); !strings.Contains(got, "12 TB") || !strings.Contains(got, "26 h") {
					t.Errorf("on paper stands %s", got)
				}
				chartstest.Ask(t, ctx, `window.dispatchEvent(new Event('afterprint'))`)
				if got := figures(); got != chosen {
					t.Errorf("after printing stands %s, not %s", got, chosen)
				}
			}
			wrong.Check(t)
		}
	}
}
