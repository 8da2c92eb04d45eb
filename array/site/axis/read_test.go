package axis

import (
	"flag"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// small is a file with what is required, and no more; ranged is the same with
// ranges in many places.
var (
	small  = mustRead("../testdata/small.toml")
	ranged = mustRead("../testdata/ranges.toml")
)

func mustRead(name string) string {
	b, err := os.ReadFile(name)
	if err != nil {
		panic(err)
	}
	return string(b)
}

func readText(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
