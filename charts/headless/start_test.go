package headless

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/chromedp/chromedp"
)

func TestStart(t *testing.T) {
	ctx := Start(t)
	if err := chromedp.Do(ctx, chromedp.Navigate("data:text/html,<p>Seen")); err != nil {
		t.Fatal(err)
	}
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string]("document.querySelector('p').textContent"))
	if text != "Seen" || err != nil {
		t.Errorf("the page says %q, %v, want Seen", text, err)
	}
}

func TestCheck(t *testing.T) {
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
