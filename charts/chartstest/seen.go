package chartstest

import (
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/page"
)

// Seen is what a page looks like from within.
type Seen struct {
	Drawings []Drawing
	Width    int // of the window, in pixels
	Beyond   int // pixels by which the page is wider than that
	Images   int
	Ran      bool // a label ran as a script
	Tip      string
	Elements int // in the tooltip, that are not ours
}

// Drawing is one drawing of a page.
type Drawing struct {
	ID     string
	Shapes int // paths drawn
	Texts  []string
	Beyond int // pixels by which a text leaves it
	Merged int // ticks of two lines, one upon the other
}

// Says reports whether a text of the drawing begins so.
func (d Drawing) Says(begins string) bool {
	return slices.ContainsFunc(d.Texts, func(s string) bool { return strings.HasPrefix(s, begins) })
}

// look is the script that sees; %q is the element of the drawing whose tooltip shows.
const look = `(() => {
  const seen = { Drawings: [], Width: innerWidth, Beyond: document.documentElement.scrollWidth - innerWidth,
    Images: document.querySelectorAll('img').length, Ran: !!window.hit, Tip: '', Elements: 0 };
  document.querySelectorAll('.drawing').forEach(d => {
    const box = d.getBoundingClientRect(), texts = [...d.querySelectorAll('svg text')];
    let beyond = 0;
    texts.forEach(x => { const b = x.getBoundingClientRect();
      beyond = Math.max(beyond, box.left - b.left, b.right - box.right, box.top - b.top, b.bottom - box.bottom); });
    const tops = texts.map(x => x.getBoundingClientRect().top);
    const merged = texts.filter((x, i) => x.textContent === '1 in' && i + 1 < texts.length && tops[i + 1] - tops[i] < 10).length;
    seen.Drawings.push({ ID: d.id.replace('drawing-', ''), Shapes: d.querySelectorAll('svg path').length, Texts: texts.map(x => x.textContent), Beyond: Math.round(beyond), Merged: merged });
  });
  const drawing = document.getElementById(%q), chart = echarts.getInstanceByDom(drawing);
  const at = chart.getOption().series.findIndex(s => s.type === 'scatter');
  chart.dispatchAction({ type: 'showTip', seriesIndex: at, dataIndex: 0 });
  const tip = drawing.querySelector('.tip');
  if (tip) { seen.Tip = tip.textContent; seen.Elements = tip.querySelectorAll(':not(div)').length; }
  return JSON.stringify(seen);
})()`

// Check holds a page against what any page must be: so many drawings, each
// with so many shapes and texts that keep within it, no wider than the window, and
// no label taken for markup.
func (s Seen) Check(t *testing.T, drawings, shapes, texts int) {
	t.Helper()
	if s.Beyond > 0 {
		t.Errorf("at %d pixels the page is %d pixels wider than the window", s.Width, s.Beyond)
	}
	if s.Ran || s.Images > 0 || s.Elements > 0 {
		t.Errorf("a label was taken for markup: ran %v, images %d, elements in the tooltip %d", s.Ran, s.Images, s.Elements)
	}
	if len(s.Drawings) != drawings {
		t.Errorf("%d drawings, want %d", len(s.Drawings), drawings)
	}
	for _, d := range s.Drawings {
		if d.Shapes < shapes || len(d.Texts) < texts {
			t.Errorf("at %d pixels %s has %d shapes and %d texts: not drawn", s.Width, d.ID, d.Shapes, len(d.Texts))
		}
		if d.Merged > 0 {
			t.Errorf("at %d pixels %d ticks of %s have their two lines one upon the other", s.Width, d.Merged, d.ID)
		}
		if d.Beyond > 1 {
			t.Errorf("at %d pixels a text leaves %s by %d pixels", s.Width, d.ID, d.Beyond)
		}
	}
}

// Widths are those of a phone, a tablet and a desk, in pixels.
var Widths = []int{390, 768, 1280}

// PageCase is a page and what it must show at any width.
type PageCase struct {
	Name          string
	Contents      page.Contents
	Drawings      int
	Shapes, Texts int                          // that each drawing has at least
	TipOf         string                       // drawing whose first tooltip is looked at
	Tip           string                       // that it holds
	Check         func(*testing.T, *Tab, Seen) // what else holds at each width; nil: nothing
	Last          func(*testing.T, *Tab)       // what else is done with the page in the end; nil: nothing
	Wide          bool                         // it is looked at at the greatest width with make test too, if it is the first
}

// CheckInBrowser looks at pages, each in a tab of its own, side by side: at the first,
// whose labels should be [Hostile], at the least width, where room is scarcest, and by
// keyboard. With make thorough it looks at the first at all widths, at all others at the
// least, half of them at the greatest too, and goes through all by keyboard. A page is
// opened once and then resized.
func CheckInBrowser(t *testing.T, pages ...PageCase) {
	for i, p := range pages {
		if i > 0 && !thorough.Asked() {
			break // to open a page takes longest of all
		}
		widths := []int{Widths[0], Widths[2]}
		switch {
		case i == 0 && thorough.Asked():
			widths = Widths
		case !thorough.Asked() && !p.Wide, i > 0 && i%2 == 0:
			widths = widths[:1]
		}
		t.Run(p.Name, func(t *testing.T) {
			t.Parallel()
			tab := NewTab(t)
			for k, width := range widths {
				if k == 0 {
					tab.Show(p.Name, p.Contents, width)
				} else {
					tab.Resize(width)
				}
				s := tab.Look(p.TipOf)
				s.Check(t, p.Drawings, p.Shapes, p.Texts)
				if !strings.Contains(s.Tip, p.Tip) {
					t.Errorf("at %d pixels the tooltip says %q, want %q in it", width, s.Tip, p.Tip)
				}
				if p.Check != nil {
					p.Check(t, tab, s)
				}
				if k == 0 {
					tab.CheckKeys()
				}
			}
			if p.Last != nil {
				p.Last(t, tab)
			}
		})
	}
}
