package licences

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"testing/fstest"
)

var works = []Work{
	{Name: "scales", Kind: Program, Parts: []Part{Binary, Engine}, Licences: []string{"MIT"}, Texts: []Text{{"LICENSE", "scales may be used\n"}}},
	{Name: "weights", Version: "v1.2.3", Kind: Module, Parts: []Part{Binary}, Licences: []string{"BSD-3-Clause", "MIT"}, Texts: []Text{{"LICENSE", "by anybody\n"}, {"PATENTS", "none\n"}}},
	{Name: "beam", Version: "1.0.0", Kind: Package, Parts: []Part{Charts}, Licences: []string{"0BSD"}, Texts: []Text{{"LICENSE.txt", "by anybody\n"}}},
}

func TestPackAndRead(t *testing.T) {
	t.Parallel()
	var once, twice bytes.Buffer
	for _, b := range []*bytes.Buffer{&once, &twice} {
		if err := Pack(b, works); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(once.Bytes(), twice.Bytes()) {
		t.Error("the same works are packed to other bytes")
	}
	got, err := read(fstest.MapFS{packed: {Data: once.Bytes()}})
	if err != nil {
		t.Fatal(err)
	}
	var before, after strings.Builder
	if err := errors.Join(Write(&before, works), Write(&after, got)); err != nil || before.String() != after.String() {
		t.Errorf("packed is\n%s\nread is\n%s\n%v", before.String(), after.String(), err)
	}
	for _, data := range []string{"", "nothing that was packed", once.String()[:once.Len()/2]} {
		if got, err := read(fstest.MapFS{packed: {Data: []byte(data)}}); err == nil {
			t.Errorf("%q is read as %v", data, got)
		}
	}
	if _, err := read(fstest.MapFS{}); !errors.Is(err, ErrNone) || !strings.Contains(err.Error(), "make licences") {
		t.Errorf("a build without licences says %v", err)
	}
}

func TestWrite(t *testing.T) {
	t.Parallel()
	rule := strings.Repeat("-", 72)
	want := `scales           MIT                in: program, desk
weights  v1.2.3  BSD-3-Clause, MIT  in: program
beam     1.0.0   0BSD               in: charts

` + rule + `
scales: LICENSE
` + rule + `

scales may be used

` + rule + `
weights v1.2.3: LICENSE
beam 1.0.0: LICENSE.txt
` + rule + `

by anybody

` + rule + `
weights v1.2.3: PATENTS
` + rule + `

none
`
	var got strings.Builder
	if err := Write(&got, works); err != nil || got.String() != want {
		t.Errorf("written are\n%s\nwant\n%s\n%v", got.String(), want, err)
	}
}

func TestIn(t *testing.T) {
	t.Parallel()
	for want, parts := range map[string][]Part{"scales weights": {Binary}, "scales": {Engine}, "scales beam": {Engine, Charts}, "": nil} {
		var names []string
		for _, w := range In(works, parts...) {
			names = append(names, w.Name)
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("in %v are %s, want %s", parts, got, want)
		}
	}
}
