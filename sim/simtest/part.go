package simtest

import (
	"os"
	"testing"
)

// Thorough reports whether tests take all their cases: with make thorough and with
// -calibrate.
func Thorough() bool { return *Calibrate || os.Getenv("ARRAYODDS_THOROUGH") != "" }

// Part reports whether a test takes its i-th case, from 0 on. Where that takes long, make
// test has every n-th, from the first on, each as it is with make thorough.
func Part(i, n int) bool { return i%n == 0 || Thorough() }

// OnlyThorough skips a test that has no part to take, and says why; make thorough has it.
func OnlyThorough(t testing.TB, why string) {
	t.Helper()
	if testing.Short() || !Thorough() {
		t.Skip(why)
	}
}
