package chartstest

import (
	"context"
	"encoding/json"
	"errors"
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

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// shared is the browser of all tests of a package: that of make test, or one of its own.
var shared struct {
	start   sync.Once
	browser *headless.Browser
	profile string
	err     error
}

// Main runs the tests of a package and ends the browser that they share.
func Main(m *testing.M) {
	code := m.Run()
	if shared.browser != nil {
		shared.browser.Close()
	}
	if shared.profile != "" {
		os.RemoveAll(shared.profile)
	}
	os.Exit(code)
}

func startShared() {
	if shared.browser, shared.err = headless.Shared(); shared.browser != nil || shared.err != nil {
		return
	}
	path, err := headless.Find()
	if err == nil {
		shared.profile, err = os.MkdirTemp("", "arrayodds-profile-")
	}
	if err == nil {
		shared.browser, err = headless.Open(path, shared.profile)
	}
	shared.err = err
}

// Tab shows pages of one test.
type Tab struct {
	t     testing.TB
	ctx   context.Context
	close context.CancelFunc

	lasting context.Context // of a tab that outlives its test

	mu         sync.Mutex
	complaints []string
	requests   []string
}

// NewTab returns a tab of the browser that all tests of the package share. What the
// browser complains of fails the test. Under -short the test is skipped.
func NewTab(t testing.TB) *Tab {
	t.Helper()
	tab := newTab(t, (*headless.Browser).Tab)
	t.Cleanup(func() {
		tab.close()
		tab.checkComplaints()
	})
	return tab
}

// NewLastingTab is as [NewTab], and the tab stays open until the tests of the package
// end. One test after the other has it, each by [Tab.For].
func NewLastingTab(t testing.TB) *Tab {
	t.Helper()
	tab := newTab(t, (*headless.Browser).LastingTab)
	if err := chromedp.Do(tab.ctx); err != nil { // its life is bound to the first context
		t.Fatalf("opening a tab: %v", err)
	}
	tab.lasting = tab.ctx
	return tab
}

func newTab(t testing.TB, open func(*headless.Browser) (context.Context, context.CancelFunc, error)) *Tab {
	t.Helper()
	if testing.Short() {
		t.Skip("looks at a page in a browser")
	}
	if !script.InPlace() {
		t.Fatal("this test looks at the charts, and the chart script is not in place: run make setup first")
	}
	shared.start.Do(startShared)
	if shared.err != nil {
		t.Fatalf("this test looks at a page in a browser: %v", shared.err)
	}
	ctx, cancel, err := open(shared.browser)
	if err != nil {
		t.Fatalf("opening a tab: %v", err)
	}
	tab := &Tab{t: t, ctx: ctx, close: cancel}
	if err := errors.Join(chromedp.Listen(ctx, tab.hear), ignore(ctx)); err != nil {
		cancel()
		t.Fatalf("opening a tab: %v", err)
	}
	return tab
}

// ignore tells the browser not to report what no test asks for: where it does, it decodes
// each page once more as a whole when it is loaded, in one task that without a tool to look
// on there is not, and notes every element that a drawing adds.
func ignore(ctx context.Context) error {
	_, fromNetwork := chromedp.Call(ctx, network.Disable, cdp.Empty{})
	_, fromCSS := chromedp.Call(ctx, css.Disable, cdp.Empty{})
	_, fromDOM := chromedp.Call(ctx, dom.Disable, cdp.Empty{})
	return errors.Join(fromNetwork, fromCSS, fromDOM)
}

// For gives a lasting tab to a test, which what the browser complains of from now on
// fails.
func (b *Tab) For(t testing.TB) {
	ctx, cancel := context.WithTimeout(b.lasting, headless.TabTime)
	b.t, b.ctx = t, ctx
	t.Cleanup(func() {
		cancel()
		b.checkComplaints()
	})
}

// hear collects what the browser says went wrong.
func (b *Tab) hear(event any) {
	text := ""
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		text = e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			text += " " + x.Description
		}
	case *runtime.EventConsoleAPICalled:
		var said []string
		for _, a := range e.Args {
			said = append(said, string(a.Value))
		}
		text = fmt.Sprintf("console.%s: %s", e.Type, strings.Join(said, " "))
	case *cdplog.EventEntryAdded:
		text = e.Entry.Text
	case *network.EventRequestWillBeSent:
		b.mu.Lock()
		defer b.mu.Unlock()
		b.requests = append(b.requests, e.Request.URL)
		return
	default:
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.complaints = append(b.complaints, text)
}

func (b *Tab) checkComplaints() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, text := range b.complaints {
		b.t.Errorf("the browser complains: %s", text)
	}
	b.complaints = nil
}

// Show opens a page in a window of that width, in pixels.
func (b *Tab) Show(name string, c page.Contents, width int) {
	b.t.Helper()
	b.show(name, c, script.Charts(), width)
}

// ShowBare opens a page that has no chart script.
func (b *Tab) ShowBare(name string, c page.Contents, width int) {
	b.t.Helper()
	b.show(name, c, "", width)
}

func (b *Tab) show(name string, c page.Contents, chartScript string, width int) {
	b.t.Helper()
	path := filepath.Join(folder(b.t), name+".html")
	f, err := os.Create(path)
	if err != nil {
		b.t.Fatal(err)
	}
	if err := errors.Join(page.WriteWith(f, c, chartScript), f.Close()); err != nil {
		b.t.Fatal(err)
	}
	b.Open(path, width)
}

// Open opens a file in a window of that width, in pixels.
func (b *Tab) Open(path string, width int) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(int64(width), height), chromedp.Navigate("file://"+filepath.ToSlash(path))); err != nil {
		b.t.Fatalf("opening %s at %d pixels: %v", filepath.Base(path), width, err)
	}
}

const height = 900 // of the window, in pixels

// folder returns where pages are written: left behind with -keep.
func folder(t testing.TB) string {
	if *keep != "" {
		return *keep
	}
	return t.TempDir()
}

// Resize gives the window another width, in pixels; the page draws anew.
func (b *Tab) Resize(width int) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(int64(width), height)); err != nil {
		b.t.Fatalf("resizing to %d pixels: %v", width, err)
	}
	// The browser's own event may come later.
	if got := b.Ask(`(dispatchEvent(new Event('resize')), innerWidth)`); got != fmt.Sprint(width) {
		b.t.Fatalf("the window is %s pixels wide, want %d", got, width)
	}
}

// Slow makes the tab's processor so many times slower.
func (b *Tab) Slow(times int) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: float64(times)}); err != nil {
		b.t.Fatal(err)
	}
}

// Front brings the tab to the front: it paints its pages, and has animation frames.
func (b *Tab) Front() {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, cdppage.BringToFront, cdp.Empty{}); err != nil {
		b.t.Fatal(err)
	}
}

// Watch makes each page note in longTasks for how many ms its thread was taken at a
// time, where that is more than 50.
func (b *Tab) Watch() {
	b.t.Helper()
	const script = `window.longTasks = []; new PerformanceObserver((list) => list.getEntries().forEach((entry) => longTasks.push(entry.duration))).observe({ entryTypes: ["longtask"] });`
	if _, err := chromedp.Call(b.ctx, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: script}); err != nil {
		b.t.Fatal(err)
	}
}

// Close closes the tab before its test ends.
func (b *Tab) Close() {
	b.close()
	b.checkComplaints()
}

// Dark makes the tab prefer dark colours, or light ones.
func (b *Tab) Dark(dark bool) {
	b.t.Helper()
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	prefers := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, prefers); err != nil {
		b.t.Fatal(err)
	}
}

// Requests makes the tab note what its pages ask for, and returns what lists the
// addresses.
func (b *Tab) Requests() func() []string {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, network.Enable, network.EnableParams{}); err != nil {
		b.t.Fatal(err)
	}
	return func() []string {
		b.mu.Lock()
		defer b.mu.Unlock()
		return slices.Clone(b.requests)
	}
}

// Ask returns what a script in the page says.
func (b *Tab) Ask(script string) string {
	b.t.Helper()
	text, err := chromedp.Run(b.ctx, chromedp.Evaluate[string]("String("+script+")"))
	if err != nil {
		b.t.Fatalf("%s: %v", script, err)
	}
	return text
}

// Await returns what comes of a promise that a script in the page makes.
func (b *Tab) Await(script string) string {
	b.t.Helper()
	text, err := chromedp.Run(b.ctx, chromedp.Evaluate[string]("(async () => String(await ("+script+")))()", chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", script, err)
	}
	return text
}

// Move sets a slider as a reader would.
func (b *Tab) Move(slider string, value int) {
	b.t.Helper()
	b.Ask(fmt.Sprintf(`(() => { const s = document.getElementById(%q); s.value = %d; s.dispatchEvent(new Event('input', { bubbles: true })); })()`, slider, value))
}

// Look returns what the page looks like from within, with the tooltip of the first
// point of a drawing.
func (b *Tab) Look(tipOf string) Seen {
	b.t.Helper()
	var s Seen
	if err := json.Unmarshal([]byte(b.Ask(fmt.Sprintf(look, "drawing-"+tipOf))), &s); err != nil {
		b.t.Fatal(err)
	}
	return s
}
