package session

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

// BenchmarkFirstTelling measures how long it takes from a changed text to the first figure
// of a choice, the reading among it; the choice is the demo's slowest.
func BenchmarkFirstTelling(b *testing.B) {
	demo := places(b)[0]
	changed := strings.Replace(demo.text, `accuracy = "5 %"`, `accuracy = "1 %"`, 1)
	texts := [][]byte{}
	for _, text := range []string{demo.text, changed} {
		args, _ := json.Marshal(map[string]any{"text": text, "choice": 6})
		texts = append(texts, args)
	}
	s, i := New(), 0
	for b.Loop() {
		ctx, cancel := context.WithCancel(context.Background())
		s.readings = nil // as after a change
		_, _, err := s.Handle(ctx, "simulate", texts[i%2], nil, func([]byte) { cancel() })
		if err != nil && !errors.Is(err, context.Canceled) {
			b.Fatal(err)
		}
		cancel()
		i++
	}
}

// BenchmarkCompare measures the demo's whole comparison in one worker, as in a page.
func BenchmarkCompare(b *testing.B) {
	args, _ := json.Marshal(map[string]any{"text": places(b)[0].text})
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := New().Handle(context.Background(), "compare", args, nil, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCurve measures a curve of all choices of the demo over an input that bears on
// nearly all of them.
func BenchmarkCurve(b *testing.B) {
	args, _ := json.Marshal(map[string]any{"text": places(b)[0].text, "path": "hazards.common_cause.per_year"})
	s := New()
	for b.Loop() {
		if _, _, err := s.Handle(context.Background(), "curve", args, nil, nil); err != nil {
			b.Fatal(err)
		}
	}
}
