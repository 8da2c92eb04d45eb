package session

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"arrayodds/array/record"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim/choose"
	"arrayodds/sim/sizing"
	"arrayodds/sim/study"
	"arrayodds/sim/teach"
)

const fleet = "label,drive_days,failures\nA,612000,21\nB,90000,2\n"

// Every question is answered with the bytes that the command writes: of each the result
// is worked out here as the command does it, by as many workers as there are.
func TestQuestionsAreTheCommands(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	demo, wharf := places(t)[0], places(t)[2]
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for name, c := range map[string]struct {
		place
		op   string
		args map[string]any
		want func(study.Request) (any, error)
	}{
		"size": {demo, "size", map[string]any{"bays": 7, "spares": "1"}, func(a study.Request) (any, error) {
			return sizing.Suggest(a.Source.File(), 7, 1), nil
		}},
		"size of a schedule": {wharf, "size", nil, func(a study.Request) (any, error) {
			return sizing.Suggest(a.Source.File(), 0, 0), nil
		}},
		"choose": {wharf, "choose", map[string]any{"bays": 8}, func(a study.Request) (any, error) {
			return choose.Find(ctx, choose.Request{Source: a.Source, Bays: 8, Spares: 1, Options: a.Options})
		}},
		"vary": {demo, "vary", map[string]any{"over": "care.response=x0.5..x2", "points": 3, "target": "1 in 1 000", "choices": []string{"RAID 5, 6 x 18 TB"}}, func(a study.Request) (any, error) {
			over, err := a.Source.Axis("care.response=x0.5..x2", 3)
			must(err)
			a.Choices = []int{1}
			return study.Vary(ctx, study.Variation{Request: a, Axes: []*axis.Axis{over}, Against: -1, Target: &study.Target{Chance: 1e-3}})
		}},
		"vary two": {wharf, "vary", map[string]any{"over": "care.response=x0.5,x2", "and": "drives.8 TB.price=100,200", "against": "mirror", "resize": true}, func(a study.Request) (any, error) {
			over, err := a.Source.Axis("care.response=x0.5,x2", 13)
			must(err)
			and, err := a.Source.Axis("drives.8 TB.price=100,200", 13)
			must(err)
			return study.Vary(ctx, study.Variation{Request: a, Axes: []*axis.Axis{over, and}, Against: 1, Resize: true})
		}},
		"rank": {wharf, "rank", nil, func(a study.Request) (any, error) { return study.Rank(ctx, a, false) }},
		"replay": {wharf, "replay", map[string]any{"choice": "mirror", "lives": 2, "onlyLosses": true}, func(a study.Request) (any, error) {
			a.Choices = []int{1}
			return study.TraceLives(ctx, a, 2, true)
		}},
		"lesson": {demo, "lesson", map[string]any{"questions": []string{"scrub"}}, func(a study.Request) (any, error) {
			a.Choices = []int{1}
			return teach.Run(ctx, a, "scrub")
		}},
		"lesson without answers": {wharf, "lesson", map[string]any{"withoutAnswers": true, "choice": "mirror"}, func(a study.Request) (any, error) {
			a.Choices = []int{1}
			return teach.Ask(a)
		}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			want, err := c.want(c.asked(t))
			must(err)
			args := map[string]any{"text": c.text}
			for k, v := range c.args {
				args[k] = v
			}
			s := New()
			answer, _ := handle(t, s, c.op, args, c.files, nil)
			if points, ok := answer["points"].([]any); !ok || len(points) == 0 {
				t.Errorf("answered %v", answer)
			}
			sameOutputs(t, s, c.op, want)
			if text, ok := answer["text"].(string); ok {
				if _, err := site.Read(strings.NewReader(text), siteName, site.Beside(newMemory(c.files))); err != nil {
					t.Errorf("the site file that is offered: %v", err)
				}
			}
		})
	}
}

func TestFitIsTheCommands(t *testing.T) {
	t.Parallel()
	rec, err := record.Read(context.Background(), strings.NewReader(fleet), "fleet.csv", record.Options{})
	if err != nil {
		t.Fatal(err)
	}
	want, err := study.FitRecord(context.Background(), rec, "fleet.csv")
	if err != nil {
		t.Fatal(err)
	}
	s := New()
	answer, _ := handle(t, s, "fit", map[string]any{"name": "fleet.csv"}, map[string][]byte{"record": []byte(fleet)}, nil)
	sameOutputs(t, s, "fit", want)
	if laws := answer["laws"].([]any); len(laws) != 2 || !strings.Contains(laws[0].(map[string]any)["life"].(string), "failures = 21") {
		t.Errorf("%v", answer)
	}
	args, _ := json.Marshal(map[string]any{"until": "yesterday"})
	got, _, err := New().Handle(context.Background(), "fit", args, map[string][]byte{"record": []byte("a,b\n1,2\n")}, nil)
	if err != nil || !bytes.Contains(got, []byte(`"path":"until"`)) || bytes.Count(got, []byte(`"text"`)) < 2 {
		t.Errorf("%s, %v", got, err)
	}
}

// Arguments that are wrong are said all at once, in the words of the command, with the
// flag that each stands for.
func TestErrorsOfArguments(t *testing.T) {
	t.Parallel()
	demo, quay, wharf := places(t)[0], places(t)[1], places(t)[2]
	for _, c := range []struct {
		place
		op   string
		args map[string]any
		want map[string]string // by path
	}{
		{demo, "vary", map[string]any{"over": "care.respons=1 h..2 h", "points": 1, "choices": []string{"x"}, "target": "soon"}, map[string]string{
			"over": "did you mean", "points": `found "1"; right would be a whole number from 2`, "choice": `no choice is called "x"`, "target": "--target: "}},
		{demo, "vary", nil, map[string]string{"": "no --over given"}},
		{demo, "vary", map[string]any{"over": "care.response=x1,x2", "target": "1 in 9", "asSafeAs": "y"}, map[string]string{"": "found --target and --as-safe-as", "as-safe-as": `"y"`}},
		{demo, "size", map[string]any{"bays": "many", "spares": -1}, map[string]string{"bays": `found "many"`, "spares": `found "-1"`}},
		{demo, "replay", map[string]any{"lives": 1e9}, map[string]string{"lives": "whole number", "": "which of the 8 choices?"}},
		{demo, "lesson", map[string]any{"questions": []string{"scrubs", "batch", "batch"}}, map[string]string{"question": "scrub"}},
		{demo, "rank", map[string]any{"accuracy": "200 %", "seed": "-1"}, map[string]string{"accuracy": `found "200 %"`, "seed": `found "-1"`}},
		{quay, "choose", nil, map[string]string{"": "found no [goal]"}},
		{quay, "size", nil, map[string]string{"": "site.toml has no cameras"}},
		{wharf, "curve", map[string]any{"path": "care.respons"}, map[string]string{"care.respons": "did you mean"}},
		{wharf, "curve", map[string]any{"path": ""}, map[string]string{"": "no path"}},
	} {
		args := map[string]any{"text": c.text}
		for k, v := range c.args {
			args[k] = v
		}
		text, _ := json.Marshal(args)
		answer, _, err := New().Handle(context.Background(), c.op, text, c.files, nil)
		var got wrong
		if err != nil || json.Unmarshal(answer, &got) != nil {
			t.Errorf("%s %v: %s, %v", c.op, c.args, answer, err)
			continue
		}
		said := map[string]string{}
		for _, e := range got.Errors {
			said[e.Path] += e.Text + "\n"
		}
		for path, part := range c.want {
			if !strings.Contains(said[path], part) {
				t.Errorf("%s %v: %q of %q is not among %v", c.op, c.args, part, path, got.Errors)
			}
		}
		if len(said) != len(c.want) {
			t.Errorf("%s %v: %v", c.op, c.args, got.Errors)
		}
	}
}

// Two choices side by side, of the comparison that was worked out last.
func TestPair(t *testing.T) {
	t.Parallel()
	s := New()
	if _, _, err := s.Handle(context.Background(), "pair", []byte(`{"a":0,"b":1}`), nil, nil); err == nil {
		t.Error("a pair of nothing")
	}
	handle(t, s, "compare", map[string]any{"text": quay}, nil, nil)
	answer, _ := handle(t, s, "pair", map[string]any{"a": 0, "b": 1}, nil, nil)
	if answer["safer"] != 1. || !(answer["times"].(float64) > 100) || answer["cost"] != nil || len(answer["points"].([]any)) < 3 {
		t.Errorf("%v", answer)
	}
	if _, _, err := s.Handle(context.Background(), "pair", []byte(`{"a":0,"b":2}`), nil, nil); err == nil {
		t.Error("a choice that there is not")
	}
}

// A curve goes through the present value, where it is near what simulate finds, and rises
// with the response time.
func TestCurve(t *testing.T) {
	t.Parallel()
	answer, _ := handle(t, New(), "curve", map[string]any{"text": quay, "path": "drives.0.life.afr", "points": 5}, nil, nil)
	var got curved
	text, _ := json.Marshal(answer)
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if got.Path != "drives.12 TB.life.afr" || got.Unit != "%" || got.Own != 1.5 || len(got.Values) != 5 || got.Values[2].Text != "1.5 %" || len(got.Curves) != 2 {
		t.Fatalf("%s", text)
	}
	for i, c := range got.Curves {
		for k := 1; k < len(c.Points); k++ {
			if c.Points[k].Chance.Value <= c.Points[k-1].Chance.Value {
				t.Errorf("%s falls: %+v", c.Label, c.Points)
			}
		}
		at, _ := handle(t, New(), "simulate", map[string]any{"text": quay, "choice": i}, nil, nil)
		want := at["chance"].(map[string]any)["value"].(float64)
		if ratio := float64(c.Points[2].Chance.Value) / want; !c.Moved || ratio < 0.7 || ratio > 1.4 {
			t.Errorf("%s: %g, simulated %g", c.Label, c.Points[2].Chance.Value, want)
		}
	}
}
