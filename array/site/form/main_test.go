package form

import (
	"flag"
	"fmt"
	"os"
	"testing"

	"arrayodds/array/thorough"
)

// TestMain has properties checked on 30 texts, where -rapid.checks asks for no other number
// and make thorough not for the library's 100.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", fmt.Sprint(thorough.Count(100, 30))); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
