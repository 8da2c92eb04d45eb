package sheet

import (
	"flag"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/study"
)

var all = flag.Bool("all", false, "look at every sheet and print it, not the most telling ones alone")

// TestOnePage looks at sheets in a browser as narrow as a phone, and prints the one with
// the most on it and, with make thorough, the one with the longest words.
func TestOnePage(t *testing.T) {
	t.Parallel()
	tab := chartstest.NewTab(t)
	for _, c := range []struct {
		name string
		is   study.Comparison
	}{
		{"sample", sample()}, {"plain", plain(sample())}, {"bare", bare()}, {"busy", busy()}, {"lossless", lossless()}, {"many", many(200, 100)},
		{"full", fullest(t, "", 8)}, {"full-few", fullest(t, "", 5)}, {"full-small", fullest(t, "small-type", 8)},
		{"wide", longest(t, strings.Repeat("W", 300))}, {"wordy", longest(t, strings.Repeat("Wide words ", 30))},
	} {
		if !*all && !slices.Contains([]string{"sample", "busy", "many", "full", "wide"}, c.name) {
			continue
		}
		tab.Show(c.name, made(c.is), 360)
		if beyond := tab.Ask("document.documentElement.scrollWidth - innerWidth"); strings.HasPrefix(beyond, "-") == false && beyond != "0" {
			t.Errorf("%s is %s pixels wider than a phone", c.name, beyond)
		}
		if !*all && c.name != "full" && (c.name != "wide" || !thorough.Asked()) {
			continue // to print takes longest
		}
		if pages := tab.Pages(); pages != 1 {
			t.Errorf("%s takes %d pages of paper", c.name, pages)
		}
	}
}
