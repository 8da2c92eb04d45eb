package record

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// TestPartsOfGzip: packed parts one behind the other, each with its own headings, are
// read as those of a zip archive are; a part without headings goes on with the one
// before, wherever that was cut.
func TestPartsOfGzip(t *testing.T) {
	t.Parallel()
	const (
		a     = "hours,failed,label\n5,1,A\n6,0,A\n"
		b     = "failed;hours\n1;7,5"
		c     = "label,failed,hours\nC,0,8\n"
		wrong = "hours,failed\nx,1\n"
		sums  = "drive_days,failures\n10,1\n"
	)
	gz := func(texts ...string) (all []byte) {
		for _, s := range texts {
			all = append(all, gzipOf(t, s)...)
		}
		return all
	}
	zip := zipOf(t, map[string]string{"a.csv": a, "b.csv": b, "c.csv": c})
	want, err := Read(t.Context(), bytes.NewReader(zip), "x", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"parts":       gz(a, b, c),
		"cut":         gz(a[:20], a[20:25], "", a[25:], b, c[:21], c[21:]),
		"a mark":      gz(a, "\ufeff"+b, c),
		"blank lines": gz("\n\n"+a, "\n"+b, c, "\n"),
	} {
		got, err := Read(t.Context(), bytes.NewReader(data), "x", Options{})
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, %v\nwant %+v", name, got, err, want)
		}
	}
	for name, f := range map[string]struct {
		data []byte
		want string
	}{
		"a mistake in each":    {gz(wrong, wrong, wrong), "x:2: hours: found \"x\"|x/part 2:2: hours: found \"x\"|x/part 3:2: hours: found \"x\""},
		"another form":         {gz(a, sums), "x/part 2:1: found the form: sums; right would be that of x: one row a drive, ages"},
		"something behind it":  {append(gz(a, b), "and more"...), "x/part 2:2: found damaged data"},
		"a part that is short": {gz(a, b)[:len(gz(a, b))-9], "x/part 2:"},
	} {
		_, err := Read(t.Context(), bytes.NewReader(f.data), "x", Options{})
		errs, _ := err.(Errors)
		if all := strings.Split(f.want, "|"); len(all) != len(errs) || slices.ContainsFunc(errs, func(e Error) bool {
			return !slices.ContainsFunc(all, func(s string) bool { return strings.HasPrefix(e.Error(), s) })
		}) {
			t.Errorf("%s: %v\nwant %s", name, err, f.want)
		}
	}
}

// TestBombs: packed data that unpacks to a thousand times its size is refused after
// the first of it.
func TestBombs(t *testing.T) {
	t.Parallel()
	const rows = 4000
	row := []byte("5,0" + strings.Repeat(" ", 9000) + "\n")
	fill := func(w io.Writer, err error) {
		for range rows {
			if err == nil {
				_, err = w.Write(row)
			}
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	head := []byte("hours,failed\n5,1\n")
	var gzipped, zipped bytes.Buffer
	g, z := gzip.NewWriter(&gzipped), zip.NewWriter(&zipped)
	_, err := g.Write(head)
	fill(g, err)
	fill(z.Create("a.csv"))
	if err := errors.Join(g.Close(), z.Close()); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"gzip": {gzipped.Bytes(), "x: found packed data that unpacks to more than 300 times its size"},
		"zip":  {zipped.Bytes(), "x/a.csv: found packed data that unpacks"},
	} {
		if _, err := Read(t.Context(), bytes.NewReader(c.data), "x", Options{}); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s, %d bytes of %d: %v", name, len(c.data), rows*len(row), err)
		}
	}
}
