package headless

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/chromedp/chromedp"
)

// Two tabs show their own pages at one time.
func TestTabs(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a browser")
	}
	path, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	b, err := Open(path, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	}()
	var tabs []context.Context
	for _, text := range []string{"one", "two"} {
		ctx, cancel := b.Tab()
		defer cancel()
		if err := chromedp.Do(ctx, chromedp.Navigate("data:text/html,<p>"+text)); err != nil {
			t.Fatal(err)
		}
		tabs = append(tabs, ctx)
	}
	for i, want := range []string{"one", "two"} {
		text, err := chromedp.Run(tabs[i], chromedp.Evaluate[string]("document.querySelector('p').textContent"))
		if text != want || err != nil {
			t.Errorf("tab %d says %q, %v, want %s", i, text, err, want)
		}
	}
}

func TestCheck(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a browser")
	}
	path, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	if err := Check(path); err != nil {
		t.Error(err)
	}
	if runtime.GOOS == "windows" {
		return // has no scripts that start like this
	}
	for name, script := range map[string]string{"ends": "#!/bin/sh\nexit 1\n", "says what it lacks": "#!/bin/sh\necho no libraries >&2\nexit 127\n"} {
		path := filepath.Join(t.TempDir(), "chromium")
		if err := os.WriteFile(path, []byte(script), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := Check(path); err == nil {
			t.Errorf("a browser that %s passes", name)
		}
	}
}
