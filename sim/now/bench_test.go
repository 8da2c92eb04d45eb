package now

import (
	"context"
	"math"
	"os"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/engine"
)

// demo returns the question about the demo's fifth choice with a drive down, to be
// answered on one core.
func demo(tb testing.TB) Request {
	f, err := os.Open("../../testdata/saltmarsh.toml")
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	s, err := site.Read(f, "saltmarsh.toml")
	if err != nil {
		tb.Fatal(err)
	}
	nan := math.NaN()
	q := Request{Site: s.Site, Choice: s.Site.Choices[4], Options: engine.Options{Seed: 1, Accuracy: s.Run.Accuracy, MaxTrials: s.Run.MaxTrials, Workers: 1}}
	q.State = array.State{HourOfWeek: 27, SpareIn: nan, TechnicianIn: 14, Scrubbed: nan}
	for i := range q.Choice.Drives {
		q.State.Drives = append(q.State.Drives, array.DriveState{Age: 3 * 8760, Down: i == 2, DownFor: nan, RebuiltFor: nan})
	}
	return q
}

// The first answer for the demo, which is to take 0.3 s on one core at the most.
func BenchmarkFirstAnswer(b *testing.B) {
	q := demo(b)
	for b.Loop() {
		if _, err := Glance(context.Background(), q); err != nil {
			b.Fatal(err)
		}
	}
}

// All of it, with what can be done.
func BenchmarkAnswer(b *testing.B) {
	q := demo(b)
	for b.Loop() {
		if _, err := Ask(context.Background(), q); err != nil {
			b.Fatal(err)
		}
	}
}
