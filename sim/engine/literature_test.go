package engine

import (
	"math"
	"testing"

	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// Two ways of the literature to the loss chance of one group of drives with a constant
// failure rate and one exponential restore at a time, written from what the papers say
// (all of them from memory). They are what the engine is measured against, and know
// nothing but such groups.

// drives is such a group over its service life. Its state is the number of drives down.
type drives struct {
	tolerance int
	horizon   float64
	outages   float64   // failures per hour while all run
	leaves    []float64 // rate at which state k ≥ 1 is left
	fails     []float64 // chance that it is left by a failure
	reaches   []float64 // chance that a loss comes before all run again
	half      []float64 // ½ for each state
}

func newDrives(c exact.Chain, horizon float64) *drives {
	d := &drives{tolerance: c.Tolerance, horizon: horizon, outages: float64(c.Drives) * c.FailurePerHour}
	for k := range c.Tolerance + 1 {
		failure := float64(c.Drives-k) * c.FailurePerHour
		d.leaves = append(d.leaves, failure+c.RestorePerHour)
		d.fails = append(d.fails, failure/(failure+c.RestorePerHour))
		d.half = append(d.half, 0.5)
	}
	// The gambler's ruin, with a chance of its own in every state.
	product, sum := 1.0, 0.0
	for k := range c.Tolerance + 1 {
		if k > 0 {
			product *= (1 - d.fails[k]) / d.fails[k]
		}
		d.reaches = append(d.reaches, sum)
		sum += product
	}
	for k := range d.reaches {
		d.reaches[k] /= sum
	}
	d.reaches = append(d.reaches, 1)
	return d
}

// forced draws the time of a failure of all drives that run since a time, on condition
// that it comes in the service life, and the chance of that: E. E. Lewis, F. Böhm, "Monte
// Carlo simulation of Markov unreliability models", Nuclear Engineering and Design 77,
// 1984.
func (d *drives) forced(since float64, rnd *stream.Stream) (at, chance float64) {
	chance = -math.Expm1(-d.outages * (d.horizon - since))
	return since - math.Log1p(-rnd.Float64()*chance)/d.outages, chance
}

// outage follows an outage that begins at a time, with so high a chance of a failure in
// each state: until the group is lost, all drives run or the service life ends.
func (d *drives) outage(at float64, failing []float64, rnd *stream.Stream) (end, weight float64, lost bool) {
	weight = 1
	for k := 1; k > 0; {
		if at += rnd.Exp() / d.leaves[k]; at >= d.horizon {
			return at, weight, false
		}
		if rnd.Float64() < failing[k] {
			weight *= d.fails[k] / failing[k]
			k++
		} else {
			weight *= (1 - d.fails[k]) / (1 - failing[k])
			k--
		}
		if k > d.tolerance {
			return at, weight, true
		}
	}
	return at, weight, false
}

// biasedLife is one life by balanced failure biasing with forcing: the first failure is
// forced into the service life, and from then on the next event of a degraded group is a
// failure with a chance of ½ (all drives being alike, balanced biasing is simple
// biasing). P. Shahabuddin, "Importance sampling for the simulation of highly reliable
// Markovian systems", Management Science 40(3), 1994; with forcing for chances by a time
// A. Goyal, P. Shahabuddin, P. Heidelberger, V. F. Nicola, P. W. Glynn, "A unified
// framework for simulating Markovian models of highly dependable systems", IEEE
// Transactions on Computers 41(1), 1992.
func (d *drives) biasedLife(rnd *stream.Stream) float64 {
	at, weight := d.forced(0, rnd)
	for at < d.horizon {
		end, w, lost := d.outage(at, d.half, rnd)
		weight *= w
		if lost {
			return weight
		}
		at = end + rnd.Exp()/d.outages
	}
	return 0
}

// biasedOutages is the same, but that each outage of a life that goes its own way is told
// once more with biasing, so that weights do not multiply from outage to outage: the
// dynamic importance sampling of the second paper, once an outage. It is what serves the
// method best where a life has many outages.
func (d *drives) biasedOutages(rnd *stream.Stream) float64 {
	at, first := d.forced(0, rnd)
	sum := 0.0
	for at < d.horizon {
		if _, w, lost := d.outage(at, d.half, rnd); lost {
			sum += w
		}
		end, _, lost := d.outage(at, d.fails, rnd)
		if lost {
			break
		}
		at = end + rnd.Exp()/d.outages
	}
	return first * sum
}

// zeroVarianceLife is one life by the approximate zero variance of P. L'Ecuyer, B.
// Tuffin, "Approximating zero-variance importance sampling in a reliability setting",
// Annals of Operations Research 189, 2011: every step is drawn with its probability times
// an approximate chance of a loss from where it leads. Here that is the chance before all
// drives run again, which for one group is known exactly, and, once they do, outages that
// are left times that chance.
func (d *drives) zeroVarianceLife(rnd *stream.Stream) float64 {
	losses := d.outages * d.reaches[1] // per hour
	value := func(k int, at float64) float64 {
		return d.reaches[k] + (1-d.reaches[k])*losses*(d.horizon-at)
	}
	weight := 1.0
	for at, k := 0.0, 0; k <= d.tolerance; {
		if k == 0 {
			// The next failure counts for itself, or for the time that it leaves.
			left := d.horizon - at
			chance := -math.Expm1(-d.outages * left)
			itself := d.reaches[1] * chance
			later := (1 - d.reaches[1]) * losses * (left - chance/d.outages)
			since, forItself := at, rnd.Float64()*(itself+later) < itself
			at, _ = d.forced(since, rnd)
			for !forItself && rnd.Float64()*left >= d.horizon-at {
				at, _ = d.forced(since, rnd)
			}
			k = 1
			weight *= (itself + later) / value(k, at)
			continue
		}
		if at += rnd.Exp() / d.leaves[k]; at >= d.horizon {
			return 0
		}
		up, down := d.fails[k]*value(k+1, at), (1-d.fails[k])*value(k-1, at)
		if rnd.Float64()*(up+down) < up {
			k++
		} else {
			k--
		}
		weight *= (up + down) / value(k, at)
	}
	return weight
}

// literature is those methods by name.
var literature = []struct {
	name string
	life func(*drives, *stream.Stream) float64
}{
	{"biased-life", (*drives).biasedLife},
	{"biased-outages", (*drives).biasedOutages},
	{"zero-variance", (*drives).zeroVarianceLife},
}

// meanLife returns the mean of lives by a method and its standard error.
func meanLife(d *drives, life func(*drives, *stream.Stream) float64, lives int, rnd *stream.Stream) (mean, err float64) {
	sum, squares := 0.0, 0.0
	for range lives {
		x := life(d, rnd)
		sum += x
		squares += x * x
	}
	n := float64(lives)
	mean = sum / n
	return mean, math.Sqrt((squares/n - mean*mean) / n)
}

// What the engine is measured against is right as well.
func TestLiteratureAgainstChain(t *testing.T) {
	t.Parallel()
	for i, sys := range []struct{ drives, tolerance int }{{8, 1}, {8, 2}, {24, 2}, {6, 3}} {
		s := simtest.OneGroup(sys.drives, sys.tolerance, law.Constant{PerHour: 1.0 / 200000}, law.Exponential(100), 43800)
		want := chainOf(s).LossBy(s.Horizon)
		d := newDrives(chainOf(s), s.Horizon)
		for _, m := range literature {
			got, err := meanLife(d, m.life, 100000, stream.New(7, uint64(i)))
			if math.Abs(got-want) > 4*err || err > 0.1*want {
				t.Errorf("%d drives, tolerance %d, %s: %.5g ± %.2g, the chain has %.5g", sys.drives, sys.tolerance, m.name, got, err, want)
			}
		}
	}
}
