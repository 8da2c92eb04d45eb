package headless

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// TabTime is the time in which one test does all that it asks of a tab.
const TabTime = 5 * time.Minute

// What a browser may take on a busy machine.
const (
	startTime = time.Minute
	endTime   = 10 * time.Second
)

// Browser shows pages in tabs side by side, without a window, and talks to nobody.
type Browser struct {
	ctx    context.Context
	cancel context.CancelFunc
}

// Open starts the browser at a path. It keeps its profile in a folder, which should be
// a new one, and in there its temporary files too, some of which it leaves behind.
func Open(path, profile string) (*Browser, error) { return open(path, profile) }

func open(path, profile string, more ...chromedp.ExecAllocatorOption) (*Browser, error) {
	if err := os.MkdirAll(profile, 0o700); err != nil {
		return nil, err
	}
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), append(more,
		chromedp.ExecPath(path), chromedp.UserDataDir(profile), chromedp.Env("TMPDIR="+profile), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("disable-dev-shm-usage", true),
		// Tabs in the background would have their timers once a second, later once a minute.
		chromedp.Flag("disable-background-timer-throttling", true),
		// All tabs in one process: to start one for each takes longer than to draw in it.
		chromedp.Flag("renderer-process-limit", "1"), chromedp.Flag("disable-site-isolation-trials", true),
		// As are these processes, which pages that fetch nothing and paint nothing do not need.
		chromedp.Flag("in-process-gpu", true), chromedp.Flag("enable-features", "NetworkServiceInProcess2"))...)
	ctx, cancel := chromedp.NewContext(allocator)
	if err := begin(ctx, cancel); err != nil {
		cancelAllocator()
		return nil, err
	}
	return &Browser{ctx, cancelAllocator}, nil
}

// begin uses a context for the first time, which starts or joins the browser and binds
// what is had of it to ctx, which therefore has no deadline of its own.
func begin(ctx context.Context, cancel context.CancelFunc) error {
	late := time.AfterFunc(startTime, cancel)
	err := chromedp.Do(ctx)
	if !late.Stop() {
		err = fmt.Errorf("it did not start within %v", startTime)
	}
	return err
}

// Tab returns the context of a new tab, whose time is bounded by [TabTime], and what
// closes it. The tab is in the background: it lays its page out and runs its scripts, but paints
// nothing, which would take most of the time, and has no animation frames.
func (b *Browser) Tab() (context.Context, context.CancelFunc, error) {
	ctx, cancelTab, err := b.LastingTab()
	if err != nil {
		return nil, nil, err
	}
	ctx, cancelTime := context.WithTimeout(ctx, TabTime)
	return ctx, func() { cancelTime(); cancelTab() }, nil
}

// LastingTab is as [Browser.Tab], and bounds no time.
func (b *Browser) LastingTab() (context.Context, context.CancelFunc, error) {
	tab, err := chromedp.Run(b.ctx, chromedp.Action[target.ID](func(ctx context.Context, _ *chromedp.Target) (target.ID, error) {
		background := true
		made, err := chromedp.CallBrowser(ctx, target.CreateTarget, target.CreateTargetParams{URL: "about:blank", Background: &background})
		return made.TargetID, err
	}))
	if err != nil {
		return nil, nil, err
	}
	ctx, cancel := chromedp.NewContext(b.ctx, chromedp.WithTargetID(tab))
	return ctx, cancel, nil
}

// Close ends the browser and waits for it to be gone; one that another process shares
// stays.
func (b *Browser) Close() error {
	ctx, cancel := context.WithTimeout(b.ctx, endTime)
	defer cancel()
	defer b.cancel()
	return chromedp.Cancel(ctx)
}

// Check opens a small page in the browser at path, and returns an error unless
// its script runs and its text takes room.
func Check(path string) error {
	folder, err := os.MkdirTemp("", "arrayodds-browser-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	b, err := Open(path, folder)
	if err == nil {
		err = b.check(folder)
		b.Close()
	}
	if err != nil {
		return fmt.Errorf("the browser %s does not show a page: %w", path, err)
	}
	return nil
}

// check shows the page, which it leaves in the folder, in the tab that the browser begins
// with. It stays there, and with it the process in which all other pages run as well.
func (b *Browser) check(folder string) error {
	page := filepath.Join(folder, "page.html")
	if err := os.WriteFile(page, []byte("<!DOCTYPE html><title>Check</title><p><span>Seen</span></p>"), 0o644); err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(b.ctx, TabTime)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.ToSlash(page))); err != nil {
		return err
	}
	width, err := chromedp.Run(ctx, chromedp.Evaluate[float64]("document.querySelector('span').getBoundingClientRect().width"))
	if err != nil {
		return err
	}
	if width <= 0 {
		return fmt.Errorf("its text is %v pixels wide: it has no fonts", width)
	}
	return nil
}
