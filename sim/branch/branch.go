// Package branch simulates one life of a choice by forced branching: rare
// failures are made to happen, each with the weight of its chance, so that a
// loss of 10^-12 is seen as often as one of 10^-2. The estimate is unbiased for
// any life and repair law.
//
// # How a life is told
//
// A [line] is one course of events with a weight. Lines are followed from
// window to window; a window ends at the next thing that is scheduled, or at
// the next failure in a group that has all its drives (those are not rare and
// fall as they may). Within a window, what is rare is a source with a known
// cumulative hazard:
//
//   - a failure in a group with drives down but more to spare forks the line: a
//     branch goes on in which it happens;
//   - a failure in a group at its tolerance (or, under stop, an unreadable
//     sector) is a loss: its chance is added to the estimate, and what comes
//     after the loss is followed as a branch of small weight;
//   - a common-cause event forks the line too.
//
// The line itself goes on with the chance that nothing of this happened. A
// branch that is restored to the level it left, or that was lost, is weighed
// against the weight at that level and ended by Russian roulette.
//
// # Twins
//
// When the length of an outage is drawn, long ones are rare and carry nearly
// all of the risk: a loss needs r further failures inside it, so its chance
// grows like length^r. So the length is drawn twice. The line takes its own
// draw from the law, and gives up the chance of a further failure in that
// group; a twin takes a draw from the tilted mixture ([law.Sum]) and lives only
// to fork where that failure happens. The group is then shadowed in the line.
// Twin and shadow end together, when the group is restored by a level.
//
// # Where this departs from the plainest scheme
//
//   - Failures in whole groups are never forced, but for the first of a life.
//   - The mixture keeps 0.2 of the law itself, not 0.4: weights grow by 5 at the
//     most, and every benchmark with a repair of chance became narrower.
//   - Of the forks of a long stay, and of common-cause events, only about as many
//     are followed as the stay, or the life, has to give, times a few: branches of
//     branches would otherwise multiply without bound.
//   - Where there is one group only, a line is its own twin for a while.
//   - A line whose weight has fallen below half of what it started with at its
//     level is put to roulette as well, so that lines do not multiply where
//     losses are common.
//   - What multiplies hazards for a whole life (a batch's frailty, the rate
//     behind a field record) is drawn from 0.4·Gamma(a) + 0.6·Gamma(a + t + 1).
//     Everything that a life reports carries its weight, so more is kept of the
//     law itself than of the lengths ([law.Keep]).
//   - Where a common-cause event strikes, the chance of a loss by it is summed
//     exactly; the number that fail short of a loss is drawn from a mixture that
//     favours many.
package branch

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Simulator tells lives of one system. It keeps its memory from life to life
// and is not safe for use by several goroutines at a time.
type Simulator struct {
	sys *model.System
	rnd *stream.Stream
	tr  *model.Trial

	units int // of work, in a step

	// perHour is the hazard of a drive where it is the same for all and for
	// ever; 0 where ages or batches have to be told apart.
	perHour float64
	worn    float64 // cumulative hazard of a drive over the whole life
	hazard  float64 // of the first failure, and its chance: the last life's
	chance  float64
	wait    outage    // notice, response and rebuild, where no spare is free
	restore outage    // of the restore law
	stay    []float64 // by level: cumulative hazard of a group over a mean stay
	most    float64   // branches that leave a stay, at the most
	keep    []float64 // by level, for this life: the share of forks that is kept, for each unit of chance

	strikes   []binomial // by running drives of a group
	keepShock float64    // share of common-cause branches that is kept, for each unit of chance

	life   law.Life    // of the drives, in this life
	fitted law.Weibull // the same, where it is drawn
	rate   float64     // multiplies every hazard of this life
	batch  float64     // multiplies those of the drives of the first hour
	phase  float64     // hour of the week at time zero

	stack []*line
	idle  []*line
	win   window
	looks int // windows so far
	hits  []hit
	kept  []downDrive // of a line on a detour

	sampler *Sampler // nil where none is
}

// New prepares a simulator.
func New(sys *model.System) *Simulator {
	b := &Simulator{sys: sys, units: 1 + sys.Groups()/16, life: sys.Life, worn: sys.Life.Cumulative(sys.Horizon)}
	if c, ok := sys.Life.(law.Constant); ok && sys.Frailty == 0 {
		b.perHour = c.PerHour
	}
	b.prepareOutages()
	b.prepareStays()
	b.most = b.mostForks()
	if sys.ShockRate > 0 {
		for n := range sys.Drives + 1 {
			b.strikes = append(b.strikes, newBinomial(n, sys.ShockChance))
		}
		b.keepShock = kept(happens(sys.ShockRate*sys.Horizon), 4)
	}
	return b
}

// Life tells one life and adds it to tr. It says whether the life came to its
// end: it does not where it takes more work than it may.
func (b *Simulator) Life(rnd *stream.Stream, tr *model.Trial) bool {
	b.rnd, b.tr = rnd, tr
	w := b.drawMultipliers()
	b.steer()
	b.phase = rnd.Float64() * law.WeekHours

	l := b.newLine()
	l.begin(b.sys)
	b.first(l, w)
	for len(b.stack) > 0 {
		b.step(b.stack[len(b.stack)-1])
		if !tr.Work(b.units) {
			b.idle = append(b.idle, b.stack...)
			b.stack = b.stack[:0]
			return false
		}
	}
	return true
}

// drawMultipliers draws what multiplies hazards for the whole life, and gives
// the weight that makes up for the tilt.
func (b *Simulator) drawMultipliers() (weight float64) {
	weight = 1
	b.rate, b.batch = 1, 1
	if f := b.sys.Fitted; f != nil {
		b.fitted = f.Draw(b.rnd)
		b.life = &b.fitted // a pointer, so that it takes no memory
		b.worn = b.life.Cumulative(b.sys.Horizon)
	}
	need := float64(b.sys.Tolerance + 1)
	if a := b.sys.Uncertain; a > 0 {
		x, w := b.tiltedGamma(a, need)
		b.rate = x
		weight *= w
	}
	if v := b.sys.Frailty; v > 0 {
		x, w := b.tiltedGamma(1/v, need)
		b.batch = x * v
		weight *= w
	}
	return weight
}

// keepMultiplier is the share of multipliers that is drawn from their own law.
const keepMultiplier = 0.4

// tiltedGamma draws from Gamma(a) in that share of cases, else from
// Gamma(a + r), with the weight that restores Gamma(a): the second density is
// x^r·Γ(a) ÷ Γ(a + r) times the first.
func (b *Simulator) tiltedGamma(a, r float64) (x, weight float64) {
	if b.rnd.Float64() < keepMultiplier {
		x = b.rnd.Gamma(a)
	} else {
		x = b.rnd.Gamma(a + r)
	}
	less, _ := math.Lgamma(a)
	more, _ := math.Lgamma(a + r)
	return x, 1 / (keepMultiplier + (1-keepMultiplier)*math.Exp(r*math.Log(x)+less-more))
}

// ownBatch draws the frailty of a drive that comes alone.
func (b *Simulator) ownBatch() float64 {
	v := b.sys.Frailty
	if v == 0 {
		return 1
	}
	return v * b.rnd.Gamma(1/v)
}

// first starts the life's main line at its first failure, which is drawn on
// condition that there is one. A life without any adds no more than its end; a
// common-cause event that comes first is a branch of its own.
func (b *Simulator) first(l *line, weight float64) {
	sys := b.sys
	original := b.rate * b.batch * float64(sys.Groups()*sys.Drives)
	hazard := original * b.worn
	if hazard != b.hazard { // the same for every life, unless multipliers are drawn
		b.hazard, b.chance = hazard, happens(hazard)
	}
	chance := b.chance
	shocks := sys.ShockRate * sys.Horizon
	quiet := 1 - chance
	if shocks > 0 {
		quiet *= math.Exp(-shocks)
	}
	b.tr.LifeEnds(0, weight*quiet)

	l.w, l.decay = weight, 1
	if shocks > 0 {
		x := b.truncated(shocks) / sys.ShockRate
		before := math.Exp(-original * b.life.Cumulative(x))
		chance := happens(shocks)
		b.shock(l, x, weight*chance*before, chance, weight)
	}
	l.w *= chance
	if chance == 0 {
		b.release(l)
		return
	}
	x := b.life.Age(hazardOf(b.rnd.Float64()*chance) / original)
	if !(x < sys.Horizon) {
		x = math.Nextafter(sys.Horizon, 0) // by rounding only
	}
	if shocks > 0 {
		l.decay = math.Exp(-sys.ShockRate * x)
		l.w *= l.decay
	}
	l.now = x
	l.strikes, l.struck = 0, none
	if n := sys.Groups(); n > 1 {
		l.strikes = b.rnd.Intn(n)
	}
	b.push(l)
}
