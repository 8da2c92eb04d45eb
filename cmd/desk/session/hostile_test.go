package session

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"arrayodds/array/hostile"
	"arrayodds/array/thorough"
)

// rest is what a site needs beside its cameras.
var rest = strings.TrimLeft(quay, "\n")

// Whatever comes is answered: with errors where it is wrong, and never with a defect.
func TestHostileInputs(t *testing.T) {
	t.Parallel()
	const large = 3_000
	answered := func(op string, args map[string]any, files map[string][]byte) (answer struct{ Errors []userError }, ok bool) {
		text, _ := json.Marshal(args)
		got, _, err := New().Handle(context.Background(), op, text, files, nil)
		if err != nil || json.Unmarshal(got, &answer) != nil {
			t.Errorf("%s: %.300s, %.2000v", op, got, err)
			return answer, false
		}
		return answer, true
	}
	check := func(in hostile.Input, op string, args map[string]any, files map[string][]byte) {
		answer, ok := answered(op, args, files)
		if refused := len(answer.Errors) > 0; ok && in.Read && refused && in.Name != "all groups" {
			t.Errorf("%s, %s: refused with %.300v", in.Name, op, answer.Errors)
		}
		for _, e := range answer.Errors {
			if e.Text == "" || len(e.Text) > 1<<16 {
				t.Errorf("%s, %s: %d bytes of an error", in.Name, op, len(e.Text))
			}
		}
	}
	for i, in := range hostile.Sites() {
		if !thorough.Part(i, 6) {
			continue
		}
		for _, n := range []int{40, min(large, in.Size)} {
			text := string(in.Make(n))
			check(in, "read", map[string]any{"text": text}, nil)
		}
		if !in.Read {
			text := string(in.Make(40))
			for _, op := range []string{"simulate", "replicate", "compare", "curve", "vary", "size", "choose"} {
				answered(op, map[string]any{"text": text, "path": "care.response", "over": "care.response=x1,x2"}, nil)
			}
		}
	}
	for i, in := range hostile.Schedules() {
		if !thorough.Part(i, 6) {
			continue
		}
		for _, n := range []int{1, min(large, in.Size)} {
			check(in, "read", map[string]any{"text": fmt.Sprintf("cameras = %q\n%s", in.File, rest)}, map[string][]byte{in.File: in.Make(n)})
		}
	}
	for i, in := range hostile.Records() {
		if !thorough.Part(i, 6) {
			continue
		}
		for _, n := range []int{1, min(large, in.Size)} {
			answered("fit", map[string]any{"name": in.File}, map[string][]byte{"record": in.Make(n)})
		}
	}
}

// What only the page can get wrong is an error, and no panic.
func TestWrongRequests(t *testing.T) {
	t.Parallel()
	good, _ := json.Marshal(map[string]any{"text": quay})
	many := map[string][]byte{}
	for i := range mostFiles + 1 {
		many[fmt.Sprint(i)] = nil
	}
	for _, c := range []struct {
		op, args string
		files    map[string][]byte
	}{
		{"nothing", "{}", nil},
		{"read", "", nil},
		{"read", `{"text": 7}`, nil},
		{"vary", `[1]`, nil},
		{"read", string(good), many},
		{"simulate", fmt.Sprintf(`{"text": %q, "choice": 2}`, "service_life"), map[string][]byte{"result0": []byte("x")}},
		{"simulate", strings.Replace(string(good), "{", `{"choice": 2,`, 1), nil},
		{"simulate", strings.Replace(string(good), "{", `{"choice": -1,`, 1), nil},
		{"replicate", strings.Replace(string(good), "{", `{"replicate": 8,`, 1), nil},
		{"compare", string(good), map[string][]byte{"result0": []byte("x")}},
		{"compare", string(good), map[string][]byte{"replicate7": []byte("x")}},
		{"output", `{"of": "compare", "format": "html"}`, nil},
		{"fit", `{}`, nil},
	} {
		answer, _, err := New().Handle(context.Background(), c.op, []byte(c.args), c.files, nil)
		if c.op == "simulate" && c.files != nil { // the site is wrong, and said first
			if err != nil || !strings.Contains(string(answer), "errors") {
				t.Errorf("%s %s: %s, %v", c.op, c.args, answer, err)
			}
			continue
		}
		if err == nil || answer != nil || strings.Contains(err.Error(), "goroutine") {
			t.Errorf("%s %.60s: %s, %v", c.op, c.args, answer, err)
		}
	}
	// A replicate of another site does not fit.
	_, out := handle(t, New(), "replicate", map[string]any{"text": quay, "replicate": 1}, nil, nil)
	wharf := places(t)[2]
	text, _ := json.Marshal(map[string]any{"text": wharf.text})
	if _, _, err := New().Handle(context.Background(), "compare", text, wharf.with(map[string][]byte{"replicate1": out["replicate"]}), nil); err == nil || !strings.Contains(err.Error(), "of another comparison") {
		t.Errorf("%v", err)
	}
}

// What a site names beside it cannot be a part of the comparison.
func TestPartsAreNoFilesOfTheSite(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]bool{"result0": true, "replicate12": true, "result": false, "result01": false, "result-1": false, "cameras.csv": false, "result0.csv": false} {
		if got := isPart(name); got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
