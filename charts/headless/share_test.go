package headless

import (
	"strings"
	"testing"

	"arrayodds/array/thorough"

	"github.com/chromedp/chromedp"
)

// A browser that is shared shows pages to whoever finds it by the environment, and is
// there for others when they have closed it. So are all pages seen in make test, of whose
// packages each closes it: only make thorough starts one more for that.
func TestShare(t *testing.T) {
	thorough.Only(t, "starts a browser")
	path, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	profile := t.TempDir()
	first, line, err := Share(path, profile)
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	name, value, _ := strings.Cut(line, "=")
	t.Setenv(name, value)
	for range 2 {
		b, err := Shared()
		if err != nil || b == nil {
			t.Fatalf("the browser of %s: %v, %v", line, b, err)
		}
		ctx, cancel, err := b.Tab()
		if err != nil {
			t.Fatal(err)
		}
		if sum, err := chromedp.Run(ctx, chromedp.Evaluate[int]("1 + 1")); sum != 2 || err != nil {
			t.Errorf("1 + 1 is %d, %v", sum, err)
		}
		cancel()
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	}
	if err := first.check(profile); err != nil {
		t.Errorf("after others closed it: %v", err)
	}
}

func TestSharedByNone(t *testing.T) {
	t.Setenv(variable, "ws://127.0.0.1:1/ none")
	if b, err := Shared(); b != nil || err == nil || !strings.Contains(err.Error(), variable) {
		t.Errorf("where none listens: %v, %v, want an error that names %s", b, err, variable)
	}
}
