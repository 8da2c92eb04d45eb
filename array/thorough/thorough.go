// Package thorough says how much of what takes long the tests of all packages do: a part
// of it with make test, all of it with make thorough, more still with make calibrate.
package thorough

import (
	"flag"
	"fmt"
	"os"
	"testing"
)

// Calibrate is whether tests hold intervals against the truth over all settings and
// seeds, and samples against each other at their largest, which takes longer than
// anybody waits for: make calibrate sets its flag. Without it they take a part, and say
// which.
var Calibrate = flag.Bool("calibrate", false, "hold intervals against the truth over all settings and seeds, for half an hour")

// Asked reports whether tests take all their cases: with make thorough and with
// -calibrate.
func Asked() bool { return *Calibrate || os.Getenv("ARRAYODDS_THOROUGH") != "" }

// Part reports whether a test takes its i-th case, from 0 on. Where that takes long, make
// test has every n-th, from the first on, each as it is with make thorough.
func Part(i, n int) bool { return i%n == 0 || Asked() }

// Count returns how many seeds, lives or draws a test takes: all of them with make
// thorough, else the part.
func Count(all, part int) int {
	if Asked() {
		return all
	}
	return part
}

// Only skips a test that has no part to take, and says why; make thorough has it.
func Only(t testing.TB, why string) {
	t.Helper()
	if testing.Short() || !Asked() {
		t.Skip(why)
	}
}

// Properties runs the tests of a package, with properties checked on 30 random cases, or
// with make thorough on 100, the library's number; -rapid.checks asks for another.
func Properties(m *testing.M) {
	if err := flag.Set("rapid.checks", fmt.Sprint(Count(100, 30))); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
