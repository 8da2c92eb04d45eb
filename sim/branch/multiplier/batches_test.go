package multiplier

import (
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// The weights restore what batches have by their law, Gamma variables of mean 1 that are
// independent: means of 1, squares of 1 + the variance, products of 1 of two batches.
func TestBatches(t *testing.T) {
	t.Parallel()
	sys := simtest.OneGroup(5, 2, law.Constant{PerHour: 1e-6}, law.Fixed(10), 43800)
	sys.Sets, sys.Batches, sys.Frailty = 2, 3, 0.5 // drives 0, 3, 6 and 9 are of one batch
	b, rnd := NewBatches(sys), stream.New(4, 1)
	var first, last, square, product, overall simtest.Mean
	for range 200000 {
		mean, w := b.Draw(rnd, 0.6)
		if w > 2.5 {
			t.Fatalf("a weight of %g", w)
		}
		if b.Frailty(0) != b.Frailty(9) {
			t.Fatal("a batch has two frailties")
		}
		first.Add(w * b.Frailty(0))
		last.Add(w * b.Frailty(8))
		square.Add(w * b.Frailty(0) * b.Frailty(6))
		product.Add(w * b.Frailty(0) * b.Frailty(4))
		overall.Add(w * mean * b.Frailty(2))
	}
	first.Is(t, "the first batch", 1)
	last.Is(t, "the last batch", 1)
	square.Is(t, "the square of one", 1.5)
	product.Is(t, "the product of two", 1)
	overall.Is(t, "the mean of all drives and one of them", 1+0.5*3/10)
}
