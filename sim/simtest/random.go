package simtest

import (
	"flag"
	"fmt"
	"testing"

	"arrayodds/array/thorough"

	"pgregory.net/rapid"
)

// CheckSites checks a property of so many random sites with make thorough, of a fifth of
// them without: the same ones in every run, because chance is compared with chance here and
// four standard errors are passed now and then. -rapid.seed and -rapid.checks ask for
// others. It must not be called by tests that run in parallel, since those are flags of the
// whole program.
func CheckSites(t *testing.T, checks int, property func(*rapid.T)) {
	t.Helper()
	if testing.Short() || !thorough.Asked() {
		checks = max(4, checks/5)
	}
	given := map[string]bool{}
	flag.Visit(func(f *flag.Flag) { given[f.Name] = true })
	for name, value := range map[string]string{"rapid.seed": "1", "rapid.checks": fmt.Sprint(checks)} {
		if given[name] {
			continue
		}
		f := flag.Lookup(name)
		before := f.Value.String()
		if err := f.Value.Set(value); err != nil {
			t.Fatal(err)
		}
		defer f.Value.Set(before)
	}
	rapid.Check(t, property)
}
