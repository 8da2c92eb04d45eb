package sweep

import (
	"context"
	"math"
	"os"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/engine"
)

// saltmarsh is the demo site.
func saltmarsh(t testing.TB) array.Site {
	t.Helper()
	r, err := os.Open("../../testdata/saltmarsh.toml")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	f, err := site.Read(r, "saltmarsh.toml")
	if err != nil {
		t.Fatal(err)
	}
	return f.Site
}

// responses is every choice of a site at so many fixed response times from 4 h to
// 168 h, evenly spaced by ratio.
func responses(s array.Site, steps int) (points []Point) {
	for _, c := range s.Choices {
		for i := range steps {
			c.Care.Response = array.Fixed{Hours: 4 * math.Pow(42, float64(i)/float64(steps-1))}
			points = append(points, Point{s, c})
		}
	}
	return points
}

// BenchmarkSweep measures how long 50 response times × the 8 choices of the demo
// site take at an accuracy of 5 %, on as many processors as there are.
func BenchmarkSweep(b *testing.B) {
	points := responses(saltmarsh(b), 50)
	for b.Loop() {
		s, err := Run(context.Background(), points, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 20e6})
		if err != nil {
			b.Fatal(err)
		}
		trials := 0
		for _, m := range s.unique {
			trials += int(m.sums.N)
			if !m.converged(0.05) {
				b.Fatalf("%s is not within 5 %%", m.curve.label)
			}
		}
		b.ReportMetric(float64(trials), "trials")
		b.ReportMetric(float64(len(s.unique)), "points")
	}
}
