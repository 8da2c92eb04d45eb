package session

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// quay is a site with little in it: no cameras, goal, prices or ranges.
const quay = `
service_life = "5 y"

[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"

[[choices]]
label = "single parity"
drive = "12 TB"
layout = "RAID 5"
drives = 7

[[choices]]
label = "double parity"
drive = "12 TB"
layout = "RAID 6"
drives = 8
`

// wharf has estimated bit rates from a schedule, a goal, ranges, losses that are common
// and a choice of drives that next to never fail.
const wharf = `
name = "Wharf <4>"
cameras = "cameras.csv"
service_life = "4 y"
currency = "EUR"

[goal]
loss_chance = "1 in 500"
missing_clip = "1 in 50"

[[drives]]
label = "8 TB"
capacity = "8 TB"
life = { afr = { low = "1 %", likely = "2 %", high = "6 %" } }
transfer = "190 MB/s"
price = 160

[[drives]]
label = "never"
capacity = "8 TB"
life = { afr = "0.00001 %" }
transfer = "190 MB/s"
price = 400

[care]
response = { low = "4 h", likely = "24 h", high = "96 h" }

[[choices]]
label = "bunch"
drive = "8 TB"
layout = "JBOD"
drives = 4

[[choices]]
label = "mirror"
drive = "8 TB"
layout = "RAID 10"
drives = 6
hot_spares = 1

[[choices]]
label = "charmed"
drive = "never"
layout = "RAID 5"
drives = 4

[run]
accuracy = "10 %"
seed = 7
`

const cameras = "label,count,bitrate,retention\nGate,4,4 Mbit/s,14 d\nHall,6,3 Mbit/s,21 d\n"

// place is a site with the files that it names.
type place struct {
	name, text string
	files      map[string][]byte
}

func places(t testing.TB) []place {
	t.Helper()
	demo, err := os.ReadFile("../../../testdata/saltmarsh.toml")
	if err != nil {
		t.Fatal(err)
	}
	return []place{
		{"saltmarsh", string(demo), nil},
		{"quay", quay, nil},
		{"wharf", wharf, map[string][]byte{"cameras.csv": []byte(cameras)}},
	}
}

// with returns the files of a place and some more.
func (p place) with(more map[string][]byte) map[string][]byte {
	all := maps.Clone(more)
	if all == nil {
		all = map[string][]byte{}
	}
	maps.Copy(all, p.files)
	return all
}

// source reads the site as the command does.
func (p place) source(t testing.TB) *axis.Source {
	t.Helper()
	source, err := axis.Open(strings.NewReader(p.text), siteName, site.Beside(newMemory(p.files)))
	if err != nil {
		t.Fatal(err)
	}
	return source
}

// asked returns what the command asks of the site.
func (p place) asked(t testing.TB) study.Request {
	t.Helper()
	source := p.source(t)
	run := source.File().Run
	asked := study.Request{Source: source, Options: engine.Options{Seed: run.Seed, Accuracy: run.Accuracy, MaxTrials: run.MaxTrials}}
	for i := range source.File().Site.Choices {
		asked.Choices = append(asked.Choices, i)
	}
	return asked
}

// handle handles a request that has to succeed, and returns its answer.
func handle(t testing.TB, s *Session, op string, args map[string]any, files map[string][]byte, tell func([]byte)) (answer map[string]any, out map[string][]byte) {
	t.Helper()
	text, err := json.Marshal(args)
	if err != nil {
		t.Fatal(err)
	}
	got, out, err := s.Handle(context.Background(), op, text, files, tell)
	if err != nil {
		t.Fatalf("%s: %v", op, err)
	}
	if err := json.Unmarshal(got, &answer); err != nil {
		t.Fatalf("%s: %v in %s", op, err, got)
	}
	if errs, ok := answer["errors"].([]any); ok && len(errs) > 0 {
		t.Fatalf("%s: %v", op, errs)
	}
	return answer, out
}

// sameOutputs holds every output of an op against what export writes of a result.
func sameOutputs(t *testing.T, s *Session, op string, want any) {
	t.Helper()
	formats := export.FormatsOf(want)
	if len(formats) == 0 {
		t.Errorf("nothing can be written of a %T", want)
	}
	for _, f := range formats {
		var b bytes.Buffer
		if err := f.Write(&b, want); err != nil {
			t.Fatal(err)
		}
		_, out := handle(t, s, "output", map[string]any{"of": op, "format": f.Name}, nil, nil)
		if got := out["file"]; !bytes.Equal(got, b.Bytes()) {
			t.Errorf("%s of %s: %d bytes, of the command %d", f.Name, op, len(got), b.Len())
		}
	}
}

// A comparison that is worked out part by part, each in a session of its own as in a
// worker of its own, is the command's byte for byte; so is one of which some parts, or
// all, are left to compare.
func TestPartsMakeTheComparison(t *testing.T) {
	t.Parallel()
	for i, p := range places(t) {
		if i < 2 && !thorough.Asked() {
			continue // the wharf has a file beside it
		}
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			want, err := study.Compare(context.Background(), p.asked(t), sim.Run)
			if err != nil {
				t.Fatal(err)
			}
			parts := map[string][]byte{}
			for i := range want.Outcomes {
				_, out := handle(t, New(), "simulate", map[string]any{"text": p.text, "choice": i}, p.files, nil)
				parts[fmt.Sprint("result", i)] = out["result"]
			}
			results := maps.Clone(parts)
			for r := range study.Replicates {
				_, out := handle(t, New(), "replicate", map[string]any{"text": p.text, "replicate": r}, p.with(results), nil)
				parts[fmt.Sprint("replicate", r)] = out["replicate"]
			}
			some := maps.Clone(parts)
			delete(some, "result0")
			delete(some, "replicate3")
			for name, files := range map[string]map[string][]byte{"all parts": parts, "some": some, "none": {}} {
				t.Run(name, func(t *testing.T) {
					s := New()
					handle(t, s, "compare", map[string]any{"text": p.text}, p.with(files), nil)
					sameOutputs(t, s, "compare", want)
				})
			}
		})
	}
}

// The tellings of a choice sharpen, and the last one is the answer.
func TestSimulateTellsAsItSharpens(t *testing.T) {
	t.Parallel()
	for _, p := range places(t)[:2] {
		var told []lossSoFar
		answer, _ := handle(t, New(), "simulate", map[string]any{"text": strings.Replace(p.text, `accuracy = "5 %"`, `accuracy = "1 %"`, 1), "choice": 1}, p.files, func(text []byte) {
			var so lossSoFar
			if err := json.Unmarshal(text, &so); err != nil {
				t.Error(err)
			}
			told = append(told, so)
		})
		if len(told) < 2 || told[0].Trials > 256 {
			t.Fatalf("%s: told %+v", p.name, told)
		}
		first, last := told[0], told[len(told)-1]
		if first.Chance.High-first.Chance.Low <= 1.5*(last.Chance.High-last.Chance.Low) || last.Share != 1 {
			t.Errorf("%s: from %+v to %+v", p.name, first, last)
		}
		if answer["odds"] != last.Odds || answer["interval"] != last.Interval || answer["trials"] != float64(last.Trials) {
			t.Errorf("%s: told %+v, answered %v", p.name, last, answer)
		}
	}
}

// ending is a context that is done after it was asked so many times.
type ending struct {
	context.Context
	left int
}

func (e *ending) Err() error {
	if e.left--; e.left < 0 {
		return context.Canceled
	}
	return nil
}

// Whatever is asked ends with the context's error soon after the context is done, though
// that is seen only by asking it.
func TestAStoppedRequestEnds(t *testing.T) {
	t.Parallel()
	p := places(t)[2]
	for _, op := range []string{"simulate", "replicate", "compare", "curve", "choose", "vary", "rank", "replay", "lesson"} {
		args, _ := json.Marshal(map[string]any{"text": p.text, "path": "care.response", "over": "care.response=x0.5,x2", "lives": 3, "onlyLosses": true, "choice": map[bool]any{true: 0, false: "mirror"}[op == "simulate"]})
		ctx := &ending{Context: context.Background(), left: 10}
		answer, out, err := New().Handle(ctx, op, args, p.files, nil)
		if !errors.Is(err, context.Canceled) || answer != nil || out != nil {
			t.Errorf("%s: %s, %v", op, answer, err)
		}
		if asked := -ctx.left; asked > 100 {
			t.Errorf("%s: asked %d times more", op, asked)
		}
	}
}

// What is wrong with a file is answered with its line, its path, and the command's words
// without the place.
func TestErrorsOfASite(t *testing.T) {
	t.Parallel()
	text := strings.Replace(quay, `"12 TB"`+"\nlife", `"12 tons"`+"\nlife", 1)
	_, want := site.Read(strings.NewReader(text), siteName)
	for _, op := range []string{"read", "simulate", "compare"} {
		args, _ := json.Marshal(map[string]any{"text": text})
		answer, _, err := New().Handle(context.Background(), op, args, nil, nil)
		var got wrong
		if err != nil || json.Unmarshal(answer, &got) != nil || len(got.Errors) != 1 {
			t.Fatalf("%s: %s, %v", op, answer, err)
		}
		e := got.Errors[0]
		// Reading says it of a field, by the place of the drive and its label.
		path, where := "drives.12 TB.capacity", "drives.12 TB.capacity: "
		if op == "read" {
			path, where = "drives.0.capacity", "12 TB, Capacity: "
		}
		said, at := strings.CutPrefix(e.Text, where)
		if whole := fmt.Sprintf("%s:%d: drives.12 TB.capacity: %s", siteName, e.Line, said); !at || e.Line != 6 || e.Path != path || whole != want.Error() {
			t.Errorf("%s: %+v, of the command %v", op, e, want)
		}
	}
}

// A panic is an error that says what it was, and the next request is answered.
func TestAPanicIsAnError(t *testing.T) {
	ops["panic"] = func(*Session, context.Context, request) (response, error) { panic("a made-up fault") }
	defer delete(ops, "panic")
	s := New()
	if _, _, err := s.Handle(context.Background(), "panic", nil, nil, nil); err == nil || !strings.Contains(err.Error(), "a made-up fault, which is a defect") {
		t.Errorf("%v", err)
	}
	handle(t, s, "read", map[string]any{"text": quay}, nil, nil)
}

func TestMemoryIsAFileSystem(t *testing.T) {
	t.Parallel()
	m := newMemory(map[string][]byte{"a.csv": []byte("words")})
	f, err := m.Open("a.csv")
	if err != nil {
		t.Fatal(err)
	}
	info, err := f.Stat()
	data, readErr := io.ReadAll(f)
	if err != nil || readErr != nil || string(data) != "words" || info.Size() != 5 || info.Name() != "a.csv" || !info.Mode().IsRegular() {
		t.Errorf("%q, %+v", data, info)
	}
	for _, name := range []string{"../a.csv", "/a.csv", "b.csv", ""} {
		if _, err := m.Open(name); err == nil {
			t.Errorf("%q was opened", name)
		}
	}
}
