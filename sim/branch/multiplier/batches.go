package multiplier

import (
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Batches are the frailties of the batches that the drives of time zero come from. Make
// it with [NewBatches].
type Batches struct {
	sys     *model.System
	variate []float64   // by batch, for this life: of Gamma(1 ÷ variance)
	chosen  []int       // by batch: how many of the drives that a loss takes, for the tilt
	counts  [][]int     // by group and batch: drives
	perRise []float64   // Γ(a) ÷ Γ(a + k), by k
	choose  [][]float64 // by drives of a batch in a group, and k
	terms   []float64   // for the weight
}

// NewBatches returns the batches of a system that has several.
func NewBatches(sys *model.System) *Batches {
	need := sys.Tolerance + 1
	b := &Batches{sys: sys, variate: make([]float64, sys.Batches), chosen: make([]int, sys.Batches)}
	for g := range sys.Groups() {
		counts := make([]int, sys.Batches)
		for i := range sys.Drives {
			counts[sys.Batch(g*sys.Drives+i)]++
		}
		b.counts = append(b.counts, counts)
	}
	b.perRise, b.terms = make([]float64, need+1), make([]float64, need+1)
	b.perRise[0] = 1
	for k := range need {
		b.perRise[k+1] = b.perRise[k] / (1/sys.Frailty + float64(k))
	}
	for n := range sys.Drives + 1 {
		row := make([]float64, need+1)
		row[0] = 1
		for k := 1; k <= min(n, need); k++ {
			row[k] = row[k-1] * float64(n-k+1) / float64(k)
		}
		b.choose = append(b.choose, row)
	}
	return b
}

// Draw draws the frailties of a life's batches, tilted in that share of cases. It returns
// the mean over all drives, and the weight that makes up for the tilt: as for one batch
// ([Draw]), but what is tilted is the batches of tolerance + 1 drives of a group, chosen at
// random.
func (b *Batches) Draw(rnd *stream.Stream, tilted float64) (mean, weight float64) {
	sys := b.sys
	clear(b.chosen)
	keep := 1 - tilted
	if rnd.Float64() >= keep {
		counts := b.counts[rnd.Intn(len(b.counts))]
		for left, need := sys.Drives, sys.Tolerance+1; need > 0; need-- {
			i := rnd.Intn(left)
			for batch, n := range counts {
				if i -= n - b.chosen[batch]; i < 0 {
					b.chosen[batch]++
					break
				}
			}
			left--
		}
	}
	total := 0.0
	for i, k := range b.chosen {
		b.variate[i] = rnd.Gamma(1/sys.Frailty + float64(k))
	}
	for i := range sys.Groups() * sys.Drives {
		total += b.variate[sys.Batch(i)]
	}
	mean = total * sys.Frailty / float64(sys.Groups()*sys.Drives)
	ratio := 0.0
	for _, counts := range b.counts {
		ratio += b.density(counts)
	}
	return mean, 1 / (keep + tilted*ratio/float64(len(b.counts)))
}

// Frailty returns what multiplies the hazard of the drive at a place of all groups, counted
// from 0 group by group, in the life that was drawn.
func (b *Batches) Frailty(place int) float64 {
	return b.sys.Frailty * b.variate[b.sys.Batch(place)]
}

// density returns the density of the tilted variates ÷ that of their own law, for a group
// with so many drives of each batch: the mean over all ways to choose tolerance + 1 of
// its drives of Π x^k·Γ(a) ÷ Γ(a + k), a coefficient of a product of polynomials.
func (b *Batches) density(counts []int) float64 {
	need := b.sys.Tolerance + 1
	clear(b.terms)
	b.terms[0] = 1
	for batch, n := range counts {
		for sum := need; sum > 0; sum-- {
			x := 1.0
			for k := 1; k <= min(n, sum); k++ {
				x *= b.variate[batch]
				b.terms[sum] += b.terms[sum-k] * b.choose[n][k] * x * b.perRise[k]
			}
		}
	}
	return b.terms[need] / b.choose[b.sys.Drives][need]
}
