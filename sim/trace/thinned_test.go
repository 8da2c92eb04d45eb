package trace

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever is left out lies within reach of the lines between what is kept.
func TestThinned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const within = 0.1
		curve := thinned{within: within}
		at := 0.0
		var all []Held
		for range rapid.IntRange(1, 60).Draw(t, "points") {
			p := Held{at, rapid.Float64Range(0, 2).Draw(t, "hours")}
			if n := len(all); n == 0 || at > all[n-1].At || math.Abs(p.Hours-all[n-1].Hours) > within {
				all = append(all, p)
				curve.add(p.At, p.Hours)
			}
			at += float64(rapid.IntRange(0, 3).Draw(t, "later by"))
		}
		kept := curve.all()
		if kept[0] != all[0] || kept[len(kept)-1] != all[len(all)-1] {
			t.Fatalf("of %v are kept %v", all, kept)
		}
		for _, p := range all {
			off := math.Inf(1)
			for i, k := range kept {
				if k == p {
					off = 0
				}
				if i > 0 && kept[i-1].At < p.At && p.At < k.At {
					j := kept[i-1]
					off = min(off, math.Abs(j.Hours+(k.Hours-j.Hours)*(p.At-j.At)/(k.At-j.At)-p.Hours))
				}
			}
			if off > within+1e-12 {
				t.Fatalf("%v is %v off; of %v are kept %v", p, off, all, kept)
			}
		}
	})
	straight := thinned{within: 1e-9}
	for i := range 1000 {
		straight.add(float64(i), 3*float64(i))
	}
	if kept := straight.all(); len(kept) != 2 {
		t.Errorf("of a straight line are kept %v", kept)
	}
}
