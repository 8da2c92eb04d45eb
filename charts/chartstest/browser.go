package chartstest

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"arrayodds/charts/headless"
	"arrayodds/charts/page"
	"arrayodds/charts/script"

	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Browser starts a headless one that talks to nobody.
func Browser(t *testing.T) context.Context {
	t.Helper()
	if script.Charts() == nil {
		t.Fatal("this test looks at the charts, and the chart script is not in place: run make setup first")
	}
	return headless.Start(t)
}

// Complaints collects what the browser says went wrong.
type Complaints struct {
	mu  sync.Mutex
	all []string
}

func (c *Complaints) Listen(t *testing.T, ctx context.Context) {
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

func (c *Complaints) Check(t *testing.T) {
	t.Helper()
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, text := range c.all {
		t.Errorf("the browser complains: %s", text)
	}
	c.all = nil
}

// Seen is what the page looks like from within.
type Seen struct {
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

const Look = `(() => {
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

func Visit(t *testing.T, ctx context.Context, path string, width, height int64) Seen {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, height), chromedp.Navigate("file://"+path)); err != nil {
		t.Fatalf("opening the page at %d pixels: %v", width, err)
	}
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](Look))
	if err != nil {
		t.Fatalf("looking at the page at %d pixels: %v", width, err)
	}
	var s Seen
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// Check holds a page against what any page must be: so many drawings, each
// with so many shapes and texts that keep within it, no wider than the window, and
// no label taken for markup.
func (s Seen) Check(t *testing.T, drawings, shapes, texts int) {
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

// Folder is where pages are written: left behind with -keep.
func Folder(t *testing.T) string {
	if *keep != "" {
		return *keep
	}
	return t.TempDir()
}

func Starts(texts []string, with string) bool {
	return slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, with) })
}

// KeepPage writes a page where the browser finds it.
func KeepPage(t *testing.T, name string, c page.Contents) string {
	t.Helper()
	return keepPage(t, name, c, script.Charts())
}

// KeepBarePage writes a page without the chart script.
func KeepBarePage(t *testing.T, name string, c page.Contents) string {
	t.Helper()
	return keepPage(t, name, c, nil)
}

func keepPage(t *testing.T, name string, c page.Contents, script []byte) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.WriteWith(&b, c, script); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(Folder(t), name)
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// OpenPage opens a page, and looks at it with the tooltip of one drawing.
func OpenPage(t *testing.T, ctx context.Context, path string, width int64, tipOf string) Seen {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("file://"+path)); err != nil {
		t.Fatalf("opening the page at %d pixels: %v", width, err)
	}
	return LookAgain(t, ctx, tipOf)
}

func LookAgain(t *testing.T, ctx context.Context, tipOf string) Seen {
	t.Helper()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](strings.Replace(Look, "drawing-loss", "drawing-"+tipOf, 1)))
	if err != nil {
		t.Fatal(err)
	}
	var s Seen
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// Ask is what a script in the page says.
func Ask(t *testing.T, ctx context.Context, script string) string {
	t.Helper()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string]("String("+script+")"))
	if err != nil {
		t.Fatalf("%s: %v", script, err)
	}
	return text
}

// Moves sets a slider as a reader would.
func Moves(t *testing.T, ctx context.Context, slider string, value int) {
	t.Helper()
	Ask(t, ctx, fmt.Sprintf(`(() => { const s = document.getElementById(%q); s.value = %d; s.dispatchEvent(new Event('input', { bubbles: true })); })()`, slider, value))
}
