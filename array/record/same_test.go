package record

import (
	"archive/zip"
	"bytes"
	"cmp"
	"compress/gzip"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"arrayodds/array"

	"pgregory.net/rapid"
)

type fataler interface{ Fatal(...any) }

func zipOf(t fataler, members map[string]string) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(members)) {
		m, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := m.Write([]byte(members[name])); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// gzips are writers to use again: a new one takes a mebibyte.
var gzips = sync.Pool{New: func() any { return gzip.NewWriter(nil) }}

func gzipOf(t fataler, text string) []byte {
	var b bytes.Buffer
	w := gzips.Get().(*gzip.Writer)
	defer gzips.Put(w)
	w.Reset(&b)
	if _, err := w.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sorted puts drives in an order of their own.
func sorted(r Record) Record {
	for _, f := range r.Fleets {
		slices.SortFunc(f.Drives, func(a, b array.Observed) int {
			return cmp.Or(cmp.Compare(a.Hours, b.Hours), cmp.Compare(a.Entered, b.Entered), compareBool(a.Failed, b.Failed))
		})
	}
	return r
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// drawSnapshots is headings and rows that agree with one another: each drive
// has its days, an age, and perhaps fails on the last.
func drawSnapshots(t *rapid.T) (string, []string) {
	var rows []string
	for d := range rapid.IntRange(1, 6).Draw(t, "drives") {
		first, n := rapid.IntRange(1, 15).Draw(t, "first"), rapid.IntRange(1, 12).Draw(t, "days")
		age, fails := rapid.IntRange(0, 50000).Draw(t, "age"), rapid.Bool().Draw(t, "fails")
		for i := range n {
			failure := 0
			if fails && i == n-1 {
				failure = 1
			}
			row := fmt.Sprintf("2025-03-%02d,S%d,m%d,1,%d,%d\n", first+i, d, d%2, failure, age+24*i)
			for range rapid.IntRange(1, 2).Draw(t, "times") {
				rows = append(rows, row)
			}
		}
	}
	return "date,serial_number,model,capacity_bytes,failure,smart_9_raw\n", rows
}

func TestSameHoweverItComes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head, rows := drawSnapshots(t)
		get := func(data []byte) Record {
			got, err := Read(t.Context(), bytes.NewReader(data), "x", Options{})
			if err != nil {
				t.Fatal(err)
			}
			return sorted(got)
		}
		text := head + strings.Join(rows, "")
		want := get([]byte(text))
		at := rapid.IntRange(0, len(rows)).Draw(t, "at")
		quoted := strings.NewReplacer(",", "\";\"", "\n", "\"\r\n\"").Replace(text)
		for name, data := range map[string][]byte{
			"other order": []byte(head + strings.Join(rapid.Permutation(rows).Draw(t, "order"), "")),
			"gzip":        gzipOf(t, text),
			"two gzips":   append(gzipOf(t, text[:len(text)/2]), gzipOf(t, text[len(text)/2:])...),
			"zip":         zipOf(t, map[string]string{"data/a.csv": head + strings.Join(rows[:at], ""), "data/B.CSV": head + strings.Join(rows[at:], ""), "__MACOSX/data/._a.csv": "\x00"}),
			"quoted":      []byte("\"" + strings.TrimSuffix(quoted, "\"")),
			"tabs":        []byte(strings.ReplaceAll(text, ",", "\t")),
		} {
			if got := get(data); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: %+v\nwant %+v", name, got, want)
			}
		}
	})
}
