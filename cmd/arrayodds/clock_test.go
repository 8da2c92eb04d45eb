package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// clocks are the files that may ask what time it is, and why. Of none of them does a
// result hear: it is the same whenever it is worked out, be the clock set back or wrong.
var clocks = map[string]string{
	"cmd/arrayodds/atomicfile/lock.go":       "how long a folder that somebody keeps locked is waited for",
	"cmd/arrayodds/atomicfile/lock_flock.go": "what a file is known again by, which a dead run has left",
	"cmd/arrayodds/desk/scripts/site.js":     "which keystrokes are one step to undo",
	"cmd/desk/yield_js.go":                   "when the page gets a turn",
}

// asksTheTime is how source asks.
var asksTheTime = []string{"time.Now(", "time.Since(", "time.Until(", ".ModTime(", "Date.now", "new Date()"}

// TestNoClockReachesResults reads the source; a long soak sets the clock back as well.
func TestNoClockReachesResults(t *testing.T) {
	t.Parallel()
	found := map[string]bool{}
	for _, dir := range []string{"array", "charts", "cmd", "sim"} {
		err := fs.WalkDir(os.DirFS(top), dir, func(path string, e fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case e.IsDir() && slices.Contains([]string{"node_modules", "dist", "testdata"}, e.Name()):
				return fs.SkipDir
			case e.IsDir() || strings.HasSuffix(path, "_test.go") || !slices.Contains([]string{".go", ".js", ".html"}, filepath.Ext(path)):
				return nil
			}
			text, err := os.ReadFile(filepath.Join(top, path))
			if err != nil {
				return err
			}
			for _, at := range asksTheTime {
				if !strings.Contains(string(text), at) {
					continue
				}
				found[path] = true
				if clocks[path] == "" {
					t.Errorf("%s has %s: right would be no clock, or a reason in the table of this test", path, at)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for path := range clocks {
		if !found[path] {
			t.Errorf("%s asks for no time: right would be no row for it", path)
		}
	}
}
