package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/partfile"
	"arrayodds/sim"
)

// dividedQuestions are what is divided in tests: every command that can be.
var dividedQuestions = []struct {
	command string
	flags   []string
}{
	{"compare", nil},
	{"vary", []string{"--over", "care.response=4 h..168 h", "--points", "4", "--target", "1 in 1 000"}},
	{"rank", nil},
	{"rank", []string{"--thorough"}},
	{"choose", nil},
}

// The answer that is put together of n parts is that of one run, to the byte, in every
// format: for sites of all kinds.
func TestMergedIsOneRun(t *testing.T) {
	sites := map[string]string{
		"saltmarsh": "../../testdata/saltmarsh.toml", "hut": "testdata/parts/hut.toml",
		"shop": "../../array/site/starter/shop.toml", "depot": "../../array/site/starter/depot.toml",
	}
	few := map[string][]int{"saltmarsh": {7}, "depot": {3}} // those with many systems, without -all
	part := !*all && !thorough.Asked()                      // of sites, commands and numbers
	for name, path := range sites {
		path, err := filepath.Abs(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range dividedQuestions {
			ns := []int{1, 2, 3, 7}
			switch {
			case part && (name != "hut" || q.command == "choose" || q.flags != nil && q.flags[0] == "--thorough"):
				continue // it takes long, and under the race detector minutes
			case part:
				ns = []int{3}
			case q.flags != nil && q.flags[0] == "--thorough" && name != "hut":
				continue // it takes long
			case *all:
			case q.flags != nil && q.flags[0] == "--thorough":
				ns = []int{2}
			case few[name] != nil && q.command == "choose":
				continue
			case few[name] != nil:
				ns = few[name]
			}
			t.Run(strings.Join(append([]string{name, q.command}, q.flags...), " "), func(t *testing.T) {
				// Not in parallel: the library of the command line writes to a flag that all
				// have in common.
				dir := t.TempDir()
				asked := append([]string{q.command, path, "--blocks", "7", "--accuracy", "50 %", "--max-trials", "1000"}, q.flags...)
				want := answered(t, dir, q.command, asked...)
				for _, n := range ns {
					merge := []string{"merge"}
					for i := range n {
						part := filepath.Join(dir, fmt.Sprintf("%d-of-%d", i+1, n))
						runFine(t, append(asked, "--part", fmt.Sprintf("%d/%d", i+1, n), "--out", part, "--workers", fmt.Sprint(1+i%2))...)
						merge = append(merge[:1:1], append([]string{part}, merge[1:]...)...) // the last first
					}
					got := answered(t, dir, q.command, merge...)
					for format, text := range want {
						if !bytes.Equal(got[format], text) {
							t.Errorf("%d parts: %s is another", n, format)
						}
					}
				}
			})
		}
	}
}

// A part of another version of the program, or of a question that there is not, is refused
// with the version that it is of.
func TestPartOfAnotherVersion(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "1.part")
	runFine(t, "compare", "testdata/parts/hut.toml", "--blocks", "1", "--part", "1/1", "--out", path)
	for name, change := range map[string]func(*partfile.Part){
		"version":   func(p *partfile.Part) { p.Version = "v9" },
		"processor": func(p *partfile.Part) { p.Processor = "abacus" },
		"command":   func(p *partfile.Part) { p.Command = "guess" },
	} {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		other := filepath.Join(dir, name)
		part := writeChanged(t, other, data, change)
		var out, errOut strings.Builder
		p := program{in: strings.NewReader(""), out: &out, err: &errOut, simulate: sim.Run}
		status := p.run(t.Context(), []string{"arrayodds", "merge", other, "--html", filepath.Join(dir, "x.html")})
		want := fmt.Sprintf("%s: it is of arrayodds %s on %s; right would be to merge it with that", other, part.Version, part.Processor)
		if entries, _ := os.ReadDir(dir); status != exitUsage || !strings.Contains(errOut.String(), want) || out.Len() > 0 || slices.ContainsFunc(entries, func(e os.DirEntry) bool { return e.Name() == "x.html" }) {
			t.Errorf("%s: status %d: %s", name, status, errOut.String())
		}
	}
}

// A part that lacks what was found, or has something else in its place, is the fault of
// the parts, and not of the program.
func TestPartsThatDoNotFit(t *testing.T) {
	dir := t.TempDir()
	for i, q := range dividedQuestions {
		if !thorough.Part(i, 5) {
			continue // to find anything takes longest
		}
		path := filepath.Join(dir, fmt.Sprint(i, ".part"))
		runFine(t, slices.Concat([]string{q.command, "testdata/parts/hut.toml", "--blocks", "1", "--part", "1/1", "--out", path}, q.flags)...)
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for name, change := range map[string]func(*partfile.Part){
			"nothing":        func(p *partfile.Part) { p.Found = nil },
			"the last":       func(p *partfile.Part) { p.Found = p.Found[:len(p.Found)-1] },
			"short":          func(p *partfile.Part) { p.Found[0].Data = p.Found[0].Data[:40] },
			"something else": func(p *partfile.Part) { p.Found[0].Data = []byte("something else") },
		} {
			writeChanged(t, path, data, change)
			var out, errOut strings.Builder
			p := program{in: strings.NewReader(""), out: &out, err: &errOut, simulate: sim.Run}
			status := p.run(t.Context(), []string{"arrayodds", "merge", path, "--html", filepath.Join(dir, "x.html")})
			if status != exitUsage || !strings.HasPrefix(errOut.String(), "arrayodds: the parts do not fit together: ") || out.Len() > 0 {
				t.Errorf("%s, %s: status %d: %s", q.command, name, status, errOut.String())
			}
		}
	}
}

// writeChanged writes a part with a change to a path, and returns it.
func writeChanged(t *testing.T, path string, data []byte, change func(*partfile.Part)) partfile.Part {
	t.Helper()
	part, err := partfile.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	change(&part)
	var b bytes.Buffer
	if err := partfile.Write(&b, part); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return part
}

// answered runs a command line, and returns what it prints and what it writes in every
// format that a command's result has.
func answered(t *testing.T, dir, command string, line ...string) map[string][]byte {
	t.Helper()
	found := map[string][]byte{}
	for _, f := range export.FormatsOf((program{}).divided()[command].result) {
		found[f.Name] = nil
		line = append(line, "--"+f.Name, filepath.Join(dir, "answer."+f.Name))
	}
	text := runFine(t, line...)
	for format := range found {
		data, err := os.ReadFile(filepath.Join(dir, "answer."+format))
		if err != nil {
			t.Fatal(err)
		}
		found[format] = data
	}
	found["table"] = []byte(text)
	return found
}

// runFine runs a command line that is to end well, and returns what it prints.
func runFine(t *testing.T, line ...string) string {
	t.Helper()
	var out, errOut strings.Builder
	p := program{in: strings.NewReader(""), out: &out, err: &errOut, simulate: sim.Run}
	if status := p.run(t.Context(), append([]string{"arrayodds"}, line...)); status != exitOK {
		t.Fatalf("%q: status %d: %s", line, status, errOut.String())
	}
	return out.String()
}
