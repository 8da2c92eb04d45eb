package outage

import (
	"fmt"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// A notice of 2 h, an answer of an exponential law of mean 60 h and a rebuild of 10 h: the
// wait has the mean 62 h by either draw, whatever failures are still needed, and the square
// of what chance adds has the mean 2·60².
func TestBothDrawsHaveTheSameLaw(t *testing.T) {
	t.Parallel()
	sys := simtest.OneGroup(8, 3, law.Constant{PerHour: 1e-6}, nil, 43800)
	sys.Repair = model.Repair{Notice: law.Fixed(2), Response: model.Wait{Law: law.Exponential(60)}, Rebuild: 10}
	wait, restore := OfRepair(sys)
	if !wait.Random() || restore.Random() {
		t.Fatal("a wait without chance, or a law of restoring")
	}
	rnd := stream.New(5, 1)
	for need := range 5 { // beyond the tolerance it is that of the tolerance
		var plain, tilted, square simtest.Mean
		for range 100000 {
			plain.Add(wait.Draw(rnd))
			x, w := wait.DrawTilted(rnd, need)
			tilted.Add(w * x)
			square.Add(w * (x - 2) * (x - 2))
		}
		plain.Is(t, "the law", 62)
		tilted.Is(t, fmt.Sprintf("tilted for %d", need), 62)
		square.Is(t, fmt.Sprintf("square, tilted for %d", need), 2*60*60)
	}
}

// An exponential length is its own: its rth moment is r!·mean^r.
func TestAsExponential(t *testing.T) {
	t.Parallel()
	sys := simtest.OneGroup(8, 3, law.Constant{PerHour: 1e-6}, law.Fixed(10), 43800)
	sys.Repair.Restock.Law = law.Exponential(300)
	o := OfSpare(sys, 4)
	for r := 1; r <= 4; r++ {
		if x := o.AsExponential(r); !(x > 300*(1-1e-12) && x < 300*(1+1e-12)) {
			t.Errorf("by moment %d: %.15g h, should be 300", r, x)
		}
	}
}
