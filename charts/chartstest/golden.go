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

	"arrayodds/charts/draw"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	keep   = flag.String("keep", "", "a folder to leave the rendered pages in, to look at")
)

// CheckGolden holds a text against a file of testdata.
func CheckGolden(t *testing.T, name string, got []byte) {
	t.Helper()
	golden := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s changed; look at it, then test with -update\n%s", golden, firstDifference(string(got), string(want)))
	}
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "line " + strings.TrimSpace(w[i]) + " became " + strings.TrimSpace(g[i])
		}
	}
	return "one ends before the other"
}

// CheckKinds holds one series of each kind, a renderer's name or line or scatter,
// against the golden file of its name: the first in the charts, with its first item.
// What other items are is for [Decode].
func CheckKinds(t *testing.T, charts []draw.Chart, kinds ...string) {
	t.Helper()
	first := map[string]map[string]any{}
	for _, c := range charts {
		if c.Options == nil {
			continue
		}
		var o struct{ Series []map[string]any }
		if err := json.Unmarshal(c.Options, &o); err != nil {
			t.Fatalf("options of %s: %v", c.ID, err)
		}
		for _, s := range o.Series {
			kind, _ := s["type"].(string)
			if kind == "custom" {
				kind, _ = s["renderItem"].(string)
			}
			if items, ok := s["data"].([]any); ok && len(items) > 0 && first[kind] == nil {
				s["data"] = items[:1]
				first[kind] = s
			}
		}
	}
	for _, kind := range kinds {
		if first[kind] == nil {
			t.Errorf("no %s is drawn", kind)
			continue
		}
		series, err := json.Marshal(first[kind])
		if err != nil {
			t.Fatal(err)
		}
		CheckGolden(t, kind+".json", indented(t, series))
	}
}

// CheckFrame holds the options of a chart but its series against a golden file.
func CheckFrame(t *testing.T, name string, c draw.Chart) {
	t.Helper()
	var o map[string]any
	if err := json.Unmarshal(c.Options, &o); err != nil {
		t.Fatalf("options of %s: %v", c.ID, err)
	}
	delete(o, "series")
	frame, err := json.Marshal(o)
	if err != nil {
		t.Fatal(err)
	}
	CheckGolden(t, name, indented(t, frame))
}

// indented returns JSON with the figures of an item in one line.
func indented(t *testing.T, data []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := json.Indent(&b, data, "", " "); err != nil {
		t.Fatal(err)
	}
	b.WriteByte('\n')
	return arrays.ReplaceAllFunc(b.Bytes(), func(a []byte) []byte {
		return []byte(strings.Join(strings.Fields(string(a)), " "))
	})
}

// arrays are those of numbers.
var arrays = regexp.MustCompile(`\[[-\d\s.,e]*\]`)
