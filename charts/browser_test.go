package charts

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"arrayodds/array/label"
	"arrayodds/charts/script"

	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

const browserPath = "/usr/bin/chromium"

// browser starts a headless one that talks to nobody.
func browser(t *testing.T) context.Context {
	t.Helper()
	if _, err := os.Stat(browserPath); err != nil {
		t.Fatalf("this test looks at the page in a browser, and %s is not there: install Debian's package chromium", browserPath)
	}
	if script.Charts() == nil {
		t.Fatal("this test looks at the charts, and the chart script is not in place: run make setup first")
	}
	allocator, cancel := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(browserPath), chromedp.UserDataDir(t.TempDir()), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true))
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(allocator)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

// complaints collects what the browser says went wrong.
type complaints struct {
	mu  sync.Mutex
	all []string
}

func (c *complaints) listen(t *testing.T, ctx context.Context) {
	t.Helper()
	err := chromedp.Listen(ctx, func(event any) {
		c.mu.Lock()
		defer c.mu.Unlock()
		switch e := event.(type) {
		case *runtime.EventExceptionThrown:
			text := e.ExceptionDetails.Text
			if x := e.ExceptionDetails.Exception; x != nil {
				text += " " + x.Description
			}
			c.all = append(c.all, text)
		case *runtime.EventConsoleAPICalled:
			var said []string
			for _, a := range e.Args {
				said = append(said, string(a.Value))
			}
			c.all = append(c.all, fmt.Sprintf("console.%s: %s", e.Type, strings.Join(said, " ")))
		case *cdplog.EventEntryAdded:
			c.all = append(c.all, e.Entry.Text)
		}
	})
	if err != nil {
		t.Fatalf("starting the browser: %v", err)
	}
}

func (c *complaints) check(t *testing.T) {
	t.Helper()
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, text := range c.all {
		t.Errorf("the browser complains: %s", text)
	}
	c.all = nil
}

// seen is what the page looks like from within.
type seen struct {
	Drawings []struct {
		ID     string
		Shapes int // paths drawn
		Texts  []string
		Out    int // pixels by which a text leaves its drawing
	}
	Wide   int // pixels by which the page is wider than the window
	Images int
	Hit    bool // a label ran as a script
	Tip    string
	TipIn  int // elements in the tooltip that are not ours
}

const look = `(() => {
  const out = { Drawings: [], Wide: document.documentElement.scrollWidth - innerWidth,
    Images: document.querySelectorAll('img').length, Hit: !!window.hit, Tip: '', TipIn: 0 };
  document.querySelectorAll('.drawing').forEach(d => {
    const box = d.getBoundingClientRect(), texts = [...d.querySelectorAll('svg text')];
    let beyond = 0;
    texts.forEach(x => { const b = x.getBoundingClientRect();
      beyond = Math.max(beyond, box.left - b.left, b.right - box.right, box.top - b.top, b.bottom - box.bottom); });
    out.Drawings.push({ ID: d.id, Shapes: d.querySelectorAll('svg path').length, Texts: texts.map(x => x.textContent), Out: Math.round(beyond) });
  });
  const chart = echarts.getInstanceByDom(document.getElementById('drawing-loss'));
  const at = chart.getOption().series.findIndex(s => s.type === 'scatter');
  chart.dispatchAction({ type: 'showTip', seriesIndex: at, dataIndex: 0 });
  const tip = document.querySelector('.tip');
  if (tip) { out.Tip = tip.textContent; out.TipIn = tip.querySelectorAll(':not(div)').length; }
  return JSON.stringify(out);
})()`

func visit(t *testing.T, ctx context.Context, path string, width, height int64) seen {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, height), chromedp.Navigate("file://"+path)); err != nil {
		t.Fatalf("opening the page at %d pixels: %v", width, err)
	}
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](look))
	if err != nil {
		t.Fatalf("looking at the page at %d pixels: %v", width, err)
	}
	var s seen
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// check holds a page against what any page must be: so many drawings, each
// with so many shapes and texts that keep within it, no wider than the window, and
// no label taken for markup.
func (s seen) check(t *testing.T, drawings, shapes, texts int) {
	t.Helper()
	if s.Wide > 0 {
		t.Errorf("the page is %d pixels wider than the window", s.Wide)
	}
	if s.Hit || s.Images > 0 || s.TipIn > 0 {
		t.Errorf("a label was taken for markup: ran %v, images %d, elements in the tooltip %d", s.Hit, s.Images, s.TipIn)
	}
	if len(s.Drawings) != drawings {
		t.Errorf("%d drawings, want %d", len(s.Drawings), drawings)
	}
	for _, d := range s.Drawings {
		if d.Shapes < shapes || len(d.Texts) < texts {
			t.Errorf("%s has %d shapes and %d texts: not drawn", d.ID, d.Shapes, len(d.Texts))
		}
		if d.Out > 1 {
			t.Errorf("%s: a text leaves the drawing by %d pixels", d.ID, d.Out)
		}
	}
}

// folder is where pages are written: left behind with -keep.
func folder(t *testing.T) string {
	if *keep != "" {
		return *keep
	}
	return t.TempDir()
}

func writePage(t *testing.T, r report, name string) string {
	t.Helper()
	path := filepath.Join(folder(t), name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := r.write(f, script.Charts()); err != nil {
		t.Fatal(err)
	}
	return path
}

func starts(texts []string, with string) bool {
	return slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, with) })
}

func TestPageInABrowser(t *testing.T) {
	ctx := browser(t)
	var wrong complaints
	wrong.listen(t, ctx)
	even := sampleReport() // all of one size: the curve is on a plain scale
	even.Outcomes = even.Outcomes[:2]
	for _, p := range []struct {
		name   string
		report report
	}{{"sample", sampleReport()}, {"hostile", hostileReport()}, {"even", even}} {
		path := writePage(t, p.report, p.name+".html")
		for _, width := range []int64{390, 768, 1280} {
			t.Run(fmt.Sprintf("%s at %d", p.name, width), func(t *testing.T) {
				s := visit(t, ctx, path, width, 900)
				wrong.check(t)
				s.check(t, 4, 2*len(p.report.Outcomes), 5)
				for i := range p.report.Outcomes {
					for _, d := range s.Drawings {
						if rows := d.ID == "drawing-loss" || d.ID == "drawing-causes"; rows && !starts(d.Texts, fmt.Sprintf("%d ·", i+1)) {
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
