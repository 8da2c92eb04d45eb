package branch

import (
	"testing"

	"arrayodds/sim/law"
)

// Of a line and the branches of its twin that all come back, with what they have of its weight,
// one goes on, whatever the lot of the outage: each for its part of the lots.
func TestOneGoesOn(t *testing.T) {
	t.Parallel()
	sys := systemOf(1, 5, 2, law.Constant{PerHour: 1e-6}, law.Exponential(10))
	shares := []float64{0.1, 0.25, 0.05}
	var went [4]int
	const lots = 2000
	for i := range lots {
		b, _ := following(sys, 45)
		l := lineAt(b, 100)
		lot := (float64(i) + 0.5) / lots
		l.groups[0].lot, l.twin = lot, 0
		goes := 0
		for k, share := range shares {
			if b.byLot(&line{w: share}, 1, b.drawLot(l, 0, share)) {
				went[k]++
				goes++
			}
		}
		if b.byLot(&line{w: 0.6}, 1, 1-lot) {
			went[3]++
			goes++
		}
		if goes != 1 {
			t.Fatalf("lot %g: %d go on", lot, goes)
		}
	}
	if want := [4]int{200, 500, 100, 1200}; went != want {
		t.Errorf("of %d lots %v, should be %v", lots, went, want)
	}
}
