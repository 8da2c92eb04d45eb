package partfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/divide"

	"pgregory.net/rapid"
)

// partOf returns part i of n of a question.
func partOf(i, n int) Part {
	return Part{Question: Question{
		Command: "vary", Flags: []Flag{{"over", []string{"care.response=4 h..9 h"}}, {"resize", nil}}, Site: "plans/site.toml",
		Files: []File{{"", []byte("site\n")}, {"cameras.csv", []byte{0, 255, 10}}}, Seed: 3, Blocks: 64, Parts: n, Version: "1", Processor: "amd64",
	}, Number: i, Found: []divide.Entry{{Key: "a", Data: []byte{1, 2, 3, byte(i)}}}}
}

func written(t interface{ Fatal(...any) }, p Part) []byte {
	var b bytes.Buffer
	if err := Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestPartComesBack(t *testing.T) {
	t.Parallel()
	want := partOf(2, 3)
	data := written(t, want)
	got, err := Read(data)
	if err != nil || !reflect.DeepEqual(got, want) || !bytes.Equal(data, written(t, want)) {
		t.Errorf("%v\n%+v\n%+v", err, got, want)
	}
	if text, err := fs.ReadFile(got.Beside(), "cameras.csv"); err != nil || !bytes.Equal(text, []byte{0, 255, 10}) || string(got.Text()) != "site\n" {
		t.Errorf("%q, %v", text, err)
	}
}

// A part that packs better than others do is read again too.
func TestZerosComeBack(t *testing.T) {
	t.Parallel()
	text := bytes.Repeat([]byte{'A'}, 36<<20)
	body, err := packed(text)
	if err != nil {
		t.Fatal(err)
	}
	if body.Len() < len(text)/16 {
		t.Fatalf("%d bytes are packed in %d, as others are", len(text), body.Len())
	}
	r, err := unpacked(body.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	back, wrong := 0, 0 // counted as they come: all of them at once take their memory again
	for buffer := make([]byte, 64<<10); err == nil; {
		var n int
		n, err = r.Read(buffer)
		back += n
		wrong += n - bytes.Count(buffer[:n], []byte{'A'})
	}
	if err != io.EOF || back != len(text) || wrong > 0 {
		t.Errorf("of %d bytes %d come back, %d of them others: %v", len(text), back, wrong, err)
	}
	if !thorough.Asked() {
		return // a whole part of such a size takes two seconds
	}
	want := partOf(1, 1)
	want.Found[0].Data = make([]byte, 30<<20) // 40 MiB of text
	if got, err := Read(written(t, want)); err != nil || !reflect.DeepEqual(got, want) {
		t.Error(err)
	}
}

// Whatever byte of a part is changed, or wherever it is cut short or gone on with, it is
// known to be damaged, and not taken for no part.
func TestDamageIsKnown(t *testing.T) {
	t.Parallel()
	good := written(t, partOf(2, 3))
	damaged := func(t interface{ Errorf(string, ...any) }, data []byte, what string) {
		p, err := Read(data)
		if _, ok := errors.AsType[*DamagedError](err); !ok || !reflect.DeepEqual(p, Part{}) {
			t.Errorf("%s: %v", what, err)
		}
	}
	for at := range good {
		changed := slices.Clone(good)
		changed[at] ^= 1 << (at % 8)
		damaged(t, changed, fmt.Sprint("byte ", at, " changed"))
		damaged(t, good[:at], fmt.Sprint("cut to ", at))
	}
	damaged(t, append(slices.Clone(good), 0), "gone on with")
	if t.Failed() {
		return
	}
	rapid.Check(t, func(t *rapid.T) {
		changed := slices.Clone(good)
		begin := rapid.IntRange(len(magic), len(good)-1).Draw(t, "begin")
		for at := begin; at < min(len(good), begin+rapid.IntRange(1, 40).Draw(t, "bytes")); at++ {
			changed[at] ^= byte(rapid.IntRange(1, 255).Draw(t, "by"))
		}
		damaged(t, changed, "bytes changed")
	})
}

func TestWhatIsNoPart(t *testing.T) {
	t.Parallel()
	for name, data := range map[string][]byte{
		"a site file": []byte("service_life = \"5 y\"\n"), "a page": []byte("<!DOCTYPE html>\n"), "zeros": make([]byte, 4096), "one word": []byte("arroyo"),
	} {
		_, err := Read(data)
		if _, ok := errors.AsType[*DamagedError](err); err == nil || ok || !strings.Contains(err.Error(), "no part") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// In whatever order parts come, they are put together in that of their numbers; and all
// that is wrong with them is said.
func TestJoin(t *testing.T) {
	t.Parallel()
	named := func(i, n int) Named { return Named{fmt.Sprint(i, ".part"), partOf(i, n)} }
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "parts")
		var all []Named
		for i := range n {
			all = append(all, named(i+1, n))
		}
		all = rapid.Permutation(all).Draw(t, "order")
		q, found, wrong := Join(all)
		if wrong != nil || q.Parts != n {
			t.Fatalf("%v", wrong)
		}
		for i, data := range found.Found("a") {
			if data[3] != byte(i+1) {
				t.Fatalf("part %d is in place %d", data[3], i+1)
			}
		}
		lost := all[0].Number
		want := ""
		if n > 1 {
			want = fmt.Sprintf("part %d of %d is missing; run: arrayodds vary plans/site.toml --over 'care.response=4 h..9 h' --resize --part %d/%d", lost, n, lost, n)
		}
		if _, _, wrong := Join(all[1:]); n > 1 && (len(wrong) != 1 || wrong[0] != want) {
			t.Errorf("%q, want %q", wrong, want)
		}
	})

	lacking := []Named{named(1, 9), named(5, 9), named(8, 9)}
	if _, _, wrong := Join(lacking); len(wrong) != 1 || !strings.HasPrefix(wrong[0], "parts 2-4,6-7,9 of 9 are missing; run: arrayodds vary") {
		t.Errorf("%q", wrong)
	}
	if _, _, wrong := Join([]Named{named(1, 2), named(2, 2), {"again", partOf(2, 2)}}); len(wrong) != 1 || wrong[0] != "2.part and again are both part 2 of 2; right would be one of them" {
		t.Errorf("%q", wrong)
	}
	for want, change := range map[string]func(*Part){
		"it is of the command rank, and not vary":                                    func(p *Part) { p.Command = "rank" },
		"the site file was another one (plans/site.toml)":                            func(p *Part) { p.Files[0].Data = []byte("another\n") },
		"cameras.csv, which the site file names, was another one":                    func(p *Part) { p.Files[1].Data = nil },
		"it is of seed 4, and not 3":                                                 func(p *Part) { p.Seed = 4 },
		"it is of a number of blocks of 32, and not 64":                              func(p *Part) { p.Blocks = 32 },
		"it is of a question in 4 parts, and not 3 parts":                            func(p *Part) { p.Parts = 4 },
		"it is of version 2, and not 1":                                              func(p *Part) { p.Version = "2" },
		"it is of a processor of the kind arm64, and not amd64":                      func(p *Part) { p.Processor = "arm64" },
		"it is of a run without --resize, and not with --resize":                     func(p *Part) { p.Flags = p.Flags[:1] },
		"it is of a run with --over x, and not with --over 'care.response=4 h..9 h'": func(p *Part) { p.Flags[0].Values = []string{"x"} },
	} {
		other := Named{"other", partOf(3, 3)}
		change(&other.Part)
		_, _, wrong := Join([]Named{other, named(1, 3), named(2, 3)})
		if len(wrong) != 2 || wrong[0] != "other does not belong to 1.part: "+want || !strings.HasPrefix(wrong[1], "part 3 of 3 is missing") {
			t.Errorf("%q, want %q", wrong, want)
		}
	}
	typed := Named{"typed", partOf(3, 3)} // the seed that the site file has, and blocks in other digits
	typed.Flags = append(typed.Flags, Flag{"seed", []string{"3"}}, Flag{"blocks", []string{"0064"}})
	if _, _, wrong := Join([]Named{typed, named(1, 3), named(2, 3)}); wrong != nil {
		t.Errorf("a seed that was typed: %q", wrong)
	}
	moved := Named{"moved", partOf(3, 3)}
	moved.Site = "elsewhere/site.toml"
	if _, _, wrong := Join([]Named{moved, named(1, 3), named(2, 3)}); wrong != nil {
		t.Errorf("a site file that lay elsewhere: %q", wrong)
	}
}

// What somebody else wrote into a part is neither run by a shell nor obeyed by a terminal.
func TestForeignNames(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(*Part){
		"a command that runs another": func(p *Part) { p.Command = "vary; touch x" },
		"a command that is a switch":  func(p *Part) { p.Command = "-vary" },
		"no command":                  func(p *Part) { p.Command = "" },
		"a flag that runs another":    func(p *Part) { p.Flags[1].Name = "resize $(touch x)" },
		"a flag of two lines":         func(p *Part) { p.Flags[1].Name = "resize\n" },
		"a version with an escape":    func(p *Part) { p.Version = "1\x1b]0;x\a" },
		"a processor with an escape":  func(p *Part) { p.Processor = "amd64\x1b[2J" },
	} {
		p := partOf(1, 2)
		change(&p)
		if got, err := Read(written(t, p)); err == nil || !strings.Contains(err.Error(), "right would be") || strings.ContainsAny(err.Error(), "\x1b\n") || !reflect.DeepEqual(got, Part{}) {
			t.Errorf("%s: %q", name, err)
		}
	}
	p := partOf(1, 2)
	p.Site, p.Files[1].Name = "a\x1b[2J.toml", "b\x1b[2J.csv"
	p.Flags[0].Values[0] = "it's\x1b[2J\\\u202e"
	p.Flags = append(p.Flags, Flag{"choice", []string{"--html=x"}})
	p, err := Read(written(t, p))
	if err != nil {
		t.Fatal(err)
	}
	others := []Named{{"1", partOf(1, 2)}, {"again", partOf(1, 2)}, {"p", p}}
	for _, all := range [][]Named{{{"p", p}}, others} {
		_, _, wrong := Join(all)
		if text := strings.Join(wrong, " "); wrong == nil || strings.ContainsAny(text, "\x1b\u202e") {
			t.Errorf("%q", wrong)
		}
	}
	if got, want := p.CommandLine(2), `arrayodds vary 'a�[2J.toml' --over $'it\'s\033[2J\\\342\200\256' --resize --choice=--html=x --part 2/2`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	p.Site = "--html=x"
	if got := p.CommandLine(2); !strings.HasPrefix(got, "arrayodds vary ./--html=x ") {
		t.Error(got)
	}
}

// The files of parts of one question are in memory once; those of another stay its own.
// Joining them copies none.
func TestFilesAreShared(t *testing.T) {
	const size = 8 << 20
	var all []Named
	for i := range 3 {
		p := partOf(i+1, 3)
		p.Files[1].Data = bytes.Repeat([]byte{byte(i / 2)}, size)
		p.Share(all)
		all = append(all, Named{fmt.Sprint(i + 1), p})
	}
	at := func(i int) *byte { return &all[i].Files[1].Data[0] }
	if at(0) != at(1) || at(1) == at(2) || *at(2) != 1 {
		t.Errorf("%p %p %p", at(0), at(1), at(2))
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, _, wrong := Join(all)
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; len(wrong) != 2 || took > size/2 {
		t.Errorf("%q, and %d bytes", wrong, took)
	}
}
