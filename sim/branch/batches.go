package branch

// dealt is what multiplies the hazards of drives of time zero that come from several
// batches. A line has each of them among its young drives, installed at hour 0, as no
// two need be alike.
type dealt struct {
	variate []float64   // by batch, for this life: of Gamma(1 ÷ variance)
	chosen  []int       // by batch: how many of the drives that a loss takes, for the tilt
	counts  [][]int     // by group and batch: drives
	perRise []float64   // Γ(a) ÷ Γ(a + k), by k
	choose  [][]float64 // by drives of a batch in a group, and k
	terms   []float64   // for the weight
}

// prepareBatches makes ready what drawBatches needs.
func (b *Simulator) prepareBatches() {
	sys := b.sys
	if !sys.SeveralBatches() {
		return
	}
	need := sys.Tolerance + 1
	d := &b.dealt
	d.variate, d.chosen = make([]float64, sys.Batches), make([]int, sys.Batches)
	for g := range sys.Groups() {
		counts := make([]int, sys.Batches)
		for i := range sys.Drives {
			counts[sys.Batch(g*sys.Drives+i)]++
		}
		d.counts = append(d.counts, counts)
	}
	d.perRise, d.terms = make([]float64, need+1), make([]float64, need+1)
	d.perRise[0] = 1
	for k := range need {
		d.perRise[k+1] = d.perRise[k] / (1/sys.Frailty + float64(k))
	}
	for n := range sys.Drives + 1 {
		row := make([]float64, need+1)
		row[0] = 1
		for k := 1; k <= min(n, need); k++ {
			row[k] = row[k-1] * float64(n-k+1) / float64(k)
		}
		d.choose = append(d.choose, row)
	}
}

// drawBatches draws the frailties of the batches, and returns the weight that makes up
// for the tilt: as for one batch ([Simulator.tiltedGamma]), but what is tilted is the
// batches of tolerance + 1 drives of a group, chosen at random.
func (b *Simulator) drawBatches() (weight float64) {
	sys, d := b.sys, &b.dealt
	clear(d.chosen)
	keep := 1 - b.tilts
	if b.rnd.Float64() >= keep {
		counts := d.counts[b.rnd.Intn(len(d.counts))]
		for left, need := sys.Drives, sys.Tolerance+1; need > 0; need-- {
			i := b.rnd.Intn(left)
			for batch, n := range counts {
				if i -= n - d.chosen[batch]; i < 0 {
					d.chosen[batch]++
					break
				}
			}
			left--
		}
	}
	total := 0.0
	for i, k := range d.chosen {
		d.variate[i] = b.rnd.Gamma(1/sys.Frailty + float64(k))
	}
	for i := range sys.Groups() * sys.Drives {
		total += d.variate[sys.Batch(i)]
	}
	b.batch = total * sys.Frailty / float64(sys.Groups()*sys.Drives)
	ratio := 0.0
	for _, counts := range d.counts {
		ratio += b.tiltOf(counts)
	}
	return 1 / (keep + b.tilts*ratio/float64(len(d.counts)))
}

// tiltOf returns the density of the tilted variates ÷ that of their own law, for a group
// with so many drives of each batch: the mean over all ways to choose tolerance + 1 of
// its drives of Π x^k·Γ(a) ÷ Γ(a + k), a coefficient of a product of polynomials.
func (b *Simulator) tiltOf(counts []int) float64 {
	d, need := &b.dealt, b.sys.Tolerance+1
	clear(d.terms)
	d.terms[0] = 1
	for batch, n := range counts {
		for sum := need; sum > 0; sum-- {
			x := 1.0
			for k := 1; k <= min(n, sum); k++ {
				x *= d.variate[batch]
				d.terms[sum] += d.terms[sum-k] * d.choose[n][k] * x * d.perRise[k]
			}
		}
	}
	return d.terms[need] / d.choose[b.sys.Drives][need]
}

// deal puts the drives of time zero into a new line, each with its batch's frailty.
func (b *Simulator) deal(l *line) {
	most := b.life.MaxRate(0, b.sys.Horizon)
	l.calm = 0
	for g := range l.groups {
		l.groups[g].original = 0
		for i := range b.sys.Drives {
			batch := b.sys.Frailty * b.dealt.variate[b.sys.Batch(g*b.sys.Drives+i)]
			l.young = append(l.young, youngDrive{group: g, batch: batch, bound: batch * most})
		}
	}
}
