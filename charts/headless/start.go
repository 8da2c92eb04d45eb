package headless

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// What a test, and a check, may take on a busy machine.
const (
	testTime  = 5 * time.Minute
	checkTime = time.Minute
)

// Start returns the context of a tab in a browser of the test's own, which
// talks to nobody and ends with the test. Without a browser the test fails.
func Start(t testing.TB) context.Context {
	t.Helper()
	path, err := Find()
	if err != nil {
		t.Fatalf("this test looks at a page in a browser: %v", err)
	}
	ctx, cancel := tab(path, t.TempDir(), testTime)
	t.Cleanup(cancel)
	return ctx
}

// tab returns the context of a tab in the browser at path, which starts at the
// first use, keeps its profile in a folder and ends within a time.
func tab(path, profile string, within time.Duration) (context.Context, context.CancelFunc) {
	allocator, cancelBrowser := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(path), chromedp.UserDataDir(profile), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("disable-dev-shm-usage", true))
	ctx, cancelTab := chromedp.NewContext(allocator)
	ctx, cancelTime := context.WithTimeout(ctx, within)
	return ctx, func() { cancelTime(); cancelTab(); cancelBrowser() }
}

// Check opens a small page in the browser at path, and returns an error unless
// its script runs and its text takes room.
func Check(path string) error {
	folder, err := os.MkdirTemp("", "arrayodds-browser-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	if err := checkIn(folder, path); err != nil {
		return fmt.Errorf("the browser %s does not show a page: %w", path, err)
	}
	return nil
}

func checkIn(folder, path string) error {
	page := filepath.Join(folder, "page.html")
	if err := os.WriteFile(page, []byte("<!DOCTYPE html><title>Check</title><p><span>Seen</span></p>"), 0o644); err != nil {
		return err
	}
	ctx, cancel := tab(path, filepath.Join(folder, "profile"), checkTime)
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
