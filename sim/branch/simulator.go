package branch

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/commoncause"
	"arrayodds/sim/branch/effort"
	"arrayodds/sim/branch/hazard"
	"arrayodds/sim/branch/multiplier"
	"arrayodds/sim/branch/outage"
	"arrayodds/sim/branch/sample"
	"arrayodds/sim/branch/worth"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Simulator simulates lives of one system by forced branching. It keeps its memory
// from life to life and must not be used by two goroutines at once. Make it with
// [New].
type Simulator struct {
	sys *model.System
	rnd *stream.Stream
	tr  *model.Trial

	units int // of work, in a step

	// perHour is the hazard of a drive where it is the same for all and for
	// ever; 0 where ages or batches have to be told apart.
	perHour float64
	hazard  float64 // of the first failure, and its chance: the last life's
	chance  float64
	wait    outage.Length // notice, response and rebuild, where no spare is free
	restore outage.Length // of the restore law
	effort  effort.Effort
	alone   bool      // rebuilds come one after the other, and nothing else counts
	tilts   float64   // share of the multipliers of lives that is drawn tilted
	keep    []float64 // by level, for this life: the share of forks that is kept, for each unit of chance

	restock outage.Length // of a hot spare
	states  *worth.States // nil where failures in whole groups are not forced
	base    float64       // worth of an outage that took the first spare
	stayOut []float64     // by spares out: failures of a drive expected until one comes back

	strikes   *commoncause.Strikes // nil where no events come
	lookShock float64              // share of windows in which common cause is looked at, for each unit of its chance
	keepShock float64              // share of common-cause branches that is kept, for each unit of chance

	life  *hazard.Life        // of the drives, in this life
	rate  float64             // multiplies every hazard of this life
	batch float64             // multiplies those of the drives of the first hour, in the mean
	dealt *multiplier.Batches // what it is, where they come from several batches; else nil
	phase float64             // hour of the week at time zero

	shares hazard.Shares // of their bounds: what young drives' hazards are reckoned as

	stack  []*line
	idle   []*line
	struck bool // a window of the life's main line had a common-cause event
	// quietStart is whether lives begin in a state in which all drives run.
	quietStart  bool
	firstForced bool // the first failure of this life was
	win         window
	looks       int               // windows so far
	hits        []commoncause.Hit // groups surveyed for an event
	kept        []downDrive       // of a line on a detour

	sample *sample.Losses // nil where none is drawn
}

// New returns a simulator of a system.
func New(sys *model.System) *Simulator {
	b := &Simulator{sys: sys, units: 1 + sys.Groups()/16, life: hazard.New(sys.Life, sys.Horizon)}
	if life, ok := sys.Life.(law.Constant); ok && sys.Frailty == 0 && (sys.Start == nil || !sys.Start.Known()) {
		b.perHour = life.PerHour
	}
	b.quietStart = sys.Start != nil && sys.Start.Whole()
	b.prepareShares()
	b.wait, b.restore = outage.OfRepair(sys)
	if sys.SeveralBatches() {
		b.dealt = multiplier.NewBatches(sys)
	}
	if sys.ShockRate > 0 {
		b.strikes = commoncause.New(sys.Drives, sys.Tolerance, sys.ShockChance)
		b.keepShock = effort.Kept(law.Happens(sys.ShockRate*sys.Horizon), 4)
		b.lookShock = looksAtShocks / law.Happens(sys.ShockRate*sys.Horizon)
	}
	b.effort = effort.Of(sys, b.strikes)
	b.prepareSpares()
	b.alone = sys.Repair.Restore != nil && !sys.Repair.Parallel && sys.ShockRate == 0 && sys.LatentRate == 0
	b.tilts = mostTilted * max(leastTilted, b.effort.ByFailures)
	return b
}

// Life simulates one life with the numbers of a stream and adds what it sees to a
// trial. It reports whether the life came to its end: it does not where it takes more
// work than the trial allows.
func (b *Simulator) Life(rnd *stream.Stream, tr *model.Trial) bool {
	b.rnd, b.tr = rnd, tr
	b.tr.Stratify(rnd.Float64())
	w := b.drawMultipliers()
	b.steer()
	b.phase = b.sys.Start.PhaseOr(rnd.Float64() * law.WeekHours)

	l := b.newLine()
	l.begin(b.sys)
	b.struck, b.firstForced = false, false
	if b.sys.Start != nil {
		b.firstFrom(l, w)
	} else {
		b.first(l, w)
	}
	for len(b.stack) > 0 {
		l := b.stack[len(b.stack)-1]
		units := b.work(l)
		b.step(l)
		if !tr.Work(units) {
			b.idle = append(b.idle, b.stack...)
			b.stack = b.stack[:0]
			return false
		}
	}
	return true
}

// work returns the units of work of a line's next window. What it takes of the young
// drives is mostly their bounds; but hazards of those in small degraded groups, and of all
// that have no bound or whose failures are forced, are worked out, some times over.
func (b *Simulator) work(l *line) int {
	units := b.units
	switch {
	case b.perHour > 0 || len(l.young) == 0:
	case math.IsInf(l.young[0].bound, 1), b.forced(l):
		units += 2 * len(l.young)
	default:
		units += len(l.young) / 16
		for i := range l.down {
			if g := l.down[i].group; !b.bounded(l, g) {
				units += 2 * (l.groups[g].running - l.groups[g].original)
			}
		}
	}
	return units
}

// drawMultipliers draws what multiplies hazards for the whole life, and returns the
// weight that makes up for the tilt.
func (b *Simulator) drawMultipliers() (weight float64) {
	weight = 1
	b.rate, b.batch = 1, 1
	need, spares := float64(b.sys.Tolerance+1), 0.0
	if b.states != nil {
		spares = float64(b.sys.Spares)
	}
	if f := b.sys.Fitted; f != nil {
		life, w := f.DrawTilted(b.rnd, b.sys.Horizon, need, 1-b.tilts)
		b.life.Refit(life)
		b.prepareShares()
		weight = w
	}
	if a := b.sys.Uncertain; a > 0 {
		x, w := multiplier.Draw(b.rnd, a, need, spares, b.tilts)
		b.rate = x
		weight *= w
	}
	if b.sys.SeveralBatches() {
		mean, w := b.dealt.Draw(b.rnd, b.tilts)
		b.batch = mean
		weight *= w
	} else if shape, scale := b.firstBatch(); shape > 0 {
		x, w := multiplier.Draw(b.rnd, shape, need, spares, b.tilts)
		b.batch = x * scale
		weight *= w
	}
	return weight
}

// mostTilted is the share of multipliers that is not drawn from their own law, and
// leastTilted how much of that share is where failures make few of the losses.
const (
	mostTilted  = 0.6
	leastTilted = 1.0 / 6
)

// stratified returns a uniform number of a life, in the stratum that is its own among
// those of its batch.
func (b *Simulator) stratified(of int) float64 {
	return (float64(b.tr.Stratum(of)) + b.rnd.Float64()) / model.Strata
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
	hazard := original * b.life.Worn
	if hazard != b.hazard { // the same for every life, unless multipliers are drawn
		b.hazard, b.chance = hazard, law.Happens(hazard)
	}
	chance := b.chance
	b.tr.Control(model.Multipliers, weight-1)

	l.w, l.decay = weight, 1
	if sys.SeveralBatches() {
		b.deal(l)
	}
	b.forceFirst(l, weight, chance, func(x float64) float64 { return original * b.life.Cumulative(x) })
	if chance == 0 {
		b.release(l)
		return
	}
	x := b.life.Age(law.HazardOf(b.stratified(0)*chance) / original)
	if !(x < sys.Horizon) {
		x = math.Nextafter(sys.Horizon, 0) // by rounding only
	}
	l.now = x
	b.decayTo(l)
	by := b.life.Cumulative(x)
	b.life.Keep(&l.near, x, by)
	b.life.Passes(b.tr, weight*chance, original, 0, by, true, false)
	b.life.Passes(b.tr, weight*(1-chance), original, 0, b.life.Worn, false, false)
	l.strikes, l.struck = 0, none
	if n := sys.Groups(); n > 1 {
		l.strikes = b.rnd.Intn(n)
	}
	if sys.SeveralBatches() {
		l.struck = b.pickYoung(l, 0, func(y *youngDrive) float64 { return y.batch })
		l.strikes = l.young[l.struck].group
	}
	b.push(l)
}

// forceFirst gives a life's main line the chance of a first failure, of which before
// returns the hazard until an hour, and the rest of its weight a life without. A
// common-cause event that comes first is a branch of its own.
func (b *Simulator) forceFirst(l *line, weight, chance float64, before func(hour float64) float64) {
	b.firstForced = true
	sys := b.sys
	shocks := sys.ShockRate * sys.Horizon
	quiet := 1 - chance
	if shocks > 0 {
		quiet *= elementary.Exp(-shocks)
	}
	b.tr.LifeEnds(0, weight*quiet)
	if shocks > 0 {
		x := law.HazardOf(b.stratified(1)*law.Happens(shocks)) / sys.ShockRate
		comes := law.Happens(shocks)
		commoncause.Comes(b.tr, sys.ShockRate, 0, sys.Horizon, x, weight, comes)
		b.shock(l, x, weight*comes*elementary.Exp(-before(x)), comes, weight, b.stratified(2))
	}
	l.w *= chance
}

// decayTo takes out of a line, from its beginning to now, what had a common-cause event.
func (b *Simulator) decayTo(l *line) {
	if b.sys.ShockRate > 0 {
		l.decay = elementary.Exp(-b.sys.ShockRate * l.now)
		l.w *= l.decay
	}
}
