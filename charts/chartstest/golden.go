package chartstest

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var (
	Update = flag.Bool("update", false, "write the golden files anew")
	keep   = flag.String("keep", "", "a folder to leave the rendered pages in, to look at")
)

func FirstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "line " + strings.TrimSpace(w[i]) + " became " + strings.TrimSpace(g[i])
		}
	}
	return "one ends before the other"
}

// CheckGolden holds a text against a file of testdata.
func CheckGolden(t *testing.T, name string, got []byte) {
	t.Helper()
	golden := filepath.Join("testdata", name)
	if *Update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s changed; look at it, then go test ./charts -update\n%s", golden, FirstDifference(string(got), string(want)))
	}
}

func CheckGoldenOptions(t *testing.T, name string, options json.RawMessage) {
	t.Helper()
	if options == nil {
		t.Fatalf("%s: nothing is drawn", name)
	}
	CheckGolden(t, name, compact(t, options))
}

// compact is the options with each series' data, an item a line.
func compact(t *testing.T, options json.RawMessage) []byte {
	t.Helper()
	var got bytes.Buffer
	if err := json.Indent(&got, options, "", " "); err != nil {
		t.Fatal(err)
	}
	got.WriteByte('\n')
	// The figures of a point stand in one line.
	return valueLines.ReplaceAllFunc(got.Bytes(), func(b []byte) []byte {
		return []byte(strings.Join(strings.Fields(string(b)), " "))
	})
}

// valueLines are the lines of an array of numbers.
var valueLines = regexp.MustCompile(`"value": \[[^]\[{]*\]`)
