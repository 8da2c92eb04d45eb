package headless

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"arrayodds/array/thorough"

	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/remote"
)

// variable is that of the environment that holds the address of a shared browser.
const variable = "ARRAYODDS_BROWSER"

// Share starts the browser at a path as [Open] does, sees that it shows a page as [Check]
// does, and returns with it the line of the environment by which [Shared] finds it in
// other processes. To start a browser takes as long as to look at a page or two. But for
// make thorough it compiles the desk's engine and the scripts of pages quickly and once: to
// compile what runs often anew, so that it runs faster, takes longer than all that tests ask
// of it.
func Share(path, profile string) (*Browser, string, error) {
	more := []chromedp.ExecAllocatorOption{remote.WebSocket}
	if !thorough.Asked() {
		more = append(more, chromedp.Flag("js-flags", "--liftoff-only --no-opt --no-maglev"))
	}
	b, err := open(path, profile, more...)
	if err != nil {
		return nil, "", fmt.Errorf("the browser %s: %w", path, err)
	}
	err = b.check(profile)
	var address []byte
	if err == nil {
		address, err = os.ReadFile(filepath.Join(profile, "DevToolsActivePort"))
	}
	port, rest, found := strings.Cut(string(address), "\n")
	if err == nil && !found {
		err = fmt.Errorf("it listens at %q, want a port and a path", address)
	}
	if err != nil {
		b.Close()
		return nil, "", fmt.Errorf("the browser %s: %w", path, err)
	}
	first := chromedp.FromContext(b.ctx).Target.TargetID
	return b, variable + "=ws://127.0.0.1:" + port + strings.TrimSpace(rest) + " " + string(first), nil
}

// Shared returns the browser that another process shares with this one, and nil where
// none does. Tabs are its own, and what pages store is not.
func Shared() (*Browser, error) {
	// os.Getenv would tell the Go command, which would then take no test's result from its
	// cache, as the address is another each time.
	value, ok := syscall.Getenv(variable)
	if !ok {
		return nil, nil
	}
	address, first, _ := strings.Cut(value, " ")
	ctx, cancelAll := remote.NewAllocator(context.Background(), address)
	// By a tab that is there: another would come with a window, which takes as long to open
	// as a browser to start.
	ctx, cancel := chromedp.NewContext(ctx, chromedp.WithTargetID(target.ID(first)), chromedp.WithDetachOnCancel())
	if err := begin(ctx, cancel); err != nil {
		cancelAll()
		return nil, fmt.Errorf("the browser at %s, which %s names: %w", address, variable, err)
	}
	return &Browser{ctx, cancelAll}, nil
}
