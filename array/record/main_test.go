package record

import (
	"flag"
	"fmt"
	"os"
	"testing"

	"arrayodds/array/thorough"
)

// TestMain has properties checked on 30 records, or with make thorough on 100, the
// library's number. -rapid.checks asks for another.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", fmt.Sprint(thorough.Count(100, 30))); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
