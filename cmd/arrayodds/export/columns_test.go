package export

import (
	"bytes"
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/choose"
	"arrayodds/sim/study"
)

// The names of columns are promised: testdata/columns.txt has them, a line each, behind
// the command. One that goes is a broken promise; one that comes is a line more.
func TestColumns(t *testing.T) {
	estimated := sample()
	estimated.Site.Cameras[0].Picture.Codec = array.H264
	var got []string
	for _, c := range []struct {
		command string
		write   func(*bytes.Buffer) error
	}{
		{"compare", func(b *bytes.Buffer) error { return compareCSV(b, estimated) }},
		{"choose", func(b *bytes.Buffer) error { return chooseCSV(b, choose.Found{}) }},
		{"size", func(b *bytes.Buffer) error { return sizeCSV(b, lock(0)) }},
		{"vary", func(b *bytes.Buffer) error { return varyCSV(b, sampleSweep()) }},
		{"rank", func(b *bytes.Buffer) error { return rankCSV(b, study.Ranking{}) }},
		{"fleet", func(b *bytes.Buffer) error { return fleetCSV(b, fleetSample()) }},
	} {
		var b bytes.Buffer
		if err := c.write(&b); err != nil {
			t.Fatal(err)
		}
		names, err := csv.NewReader(&b).Read()
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			got = append(got, c.command+" "+name)
		}
	}
	golden, err := os.ReadFile("testdata/columns.txt")
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(strings.TrimSuffix(string(golden), "\n"), "\n")
	for _, line := range want {
		if !slices.Contains(got, line) {
			t.Errorf("%s is gone, and was promised to stay", line)
		}
	}
	for _, line := range got {
		if !slices.Contains(want, line) {
			t.Errorf("%s has no line in testdata/columns.txt", line)
		}
	}
	for _, f := range Formats {
		if f.Name == "csv" && len(f.Writers) != 6 {
			t.Errorf("%d kinds of results are written as CSV, and six are looked at here", len(f.Writers))
		}
	}
}
