package plain

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The queue's first drive is the one with the least time, and of those with the same
// time the one with the lowest number, whatever was set and taken out before.
func TestQueue(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	q := newQueue(40)
	at := make([]float64, 40)
	for i := range at {
		at[i] = math.Inf(1)
	}
	for step := range 20000 {
		i := rnd.IntN(len(at))
		at[i] = float64(rnd.IntN(50))
		if rnd.IntN(3) == 0 {
			at[i] = math.Inf(1)
		}
		q.set(i, at[i])
		first, when := -1, math.Inf(1)
		for k, x := range at {
			if x < when {
				first, when = k, x
			}
		}
		if drive, x := q.first(); drive != first || x != when {
			t.Fatalf("step %d: drive %d at %g, should be %d at %g", step, drive, x, first, when)
		}
	}
	q.clear()
	if drive, x := q.first(); drive != -1 || !math.IsInf(x, 1) || q.at[3] != math.Inf(1) {
		t.Errorf("drive %d at %g of an empty queue", drive, x)
	}
}
