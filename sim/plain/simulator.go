package plain

import (
	"math"

	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Simulator simulates lives of one system event by event. It keeps its memory from life
// to life and must not be used by two goroutines at once. Make it with [New].
type Simulator struct {
	sys *model.System
	rnd *stream.Stream
	tr  *model.Trial

	now     float64
	life    law.Life
	whole   float64 // cumulative hazard of the life over the horizon
	last    asked
	rate    float64 // multiplies every hazard of this life
	given   given   // what is not drawn in a life; without a law: all is
	phase   float64 // hour of the week at time zero
	drives  []drive
	groups  []group
	sets    []set
	queue   queue // when drives fail, and when their waits and rebuilds end
	bare    []int // groups without redundancy, of sets that are up
	downs   int   // sets that are down
	struck  [][]int
	free    int
	returns []float64
	shock   float64 // when the next common-cause event comes
	sharing model.Sharing

	lost     bool
	incident bool
	failures int
	allRan   float64 // when all drives ran first, of a life that begins with some down; +Inf before

	rec *history.Record // of the life that is written down; nil for lives that only add up
}

// drive is one place in a group and the drive in it.
type drive struct {
	state   state
	install float64
	budget  float64 // cumulative hazard that it still stood
	since   float64 // then
	batch   float64 // multiplies its hazard
	at      float64 // when its wait or its rebuild ends; while queued, since when
	begun   float64 // of the rebuild
	length  float64
	known   int // defects of it that are known
}

type state int

const (
	running state = iota
	failed        // its way back is not drawn yet
	waiting
	queued
	rebuilding
)

type group struct {
	down    int
	failed  []int   // drives that do not run, in no order
	factor  float64 // multiplies the hazard of those that do
	cleared float64
}

type set struct {
	down  bool
	until float64
	since float64
}

// New returns a simulator of a system.
func New(sys *model.System) *Simulator {
	drives := sys.Groups() * sys.Drives
	return &Simulator{
		sys:    sys,
		drives: make([]drive, drives),
		groups: make([]group, sys.Groups()),
		sets:   make([]set, sys.Sets),
		queue:  newQueue(drives),
		struck: make([][]int, sys.Groups()),
	}
}

// Life simulates one life with the numbers of a stream and adds what it sees to a
// trial. It reports whether the life came to its end: it does not where it takes more
// work than the trial allows.
func (p *Simulator) Life(rnd *stream.Stream, tr *model.Trial) bool {
	p.rnd, p.tr = rnd, tr
	p.begin()
	return p.toTheEnd()
}

// toTheEnd goes on with the life until the horizon, and reports whether it came there.
func (p *Simulator) toTheEnd() bool {
	if !p.tr.Work(1 + len(p.drives)/2) {
		return false
	}
	for p.now < p.sys.Horizon {
		p.step()
		if !p.tr.Work(2) || p.rec != nil && p.rec.Full {
			return false
		}
	}
	p.tr.LifeEnds(p.failures, 1)
	return true
}

// begin begins a life with all drives new.
func (p *Simulator) begin() {
	p.now, p.lost, p.incident, p.failures = 0, false, false, 0
	p.free, p.returns = p.sys.Spares, p.returns[:0]
	p.sharing.Reset(p.sys.Sets)
	p.phase = p.sys.Start.PhaseOr(p.rnd.Float64() * law.WeekHours)
	p.drawLife()
	batch := p.firstBatch()
	for i := range p.drives {
		p.drives[i] = drive{budget: p.rnd.Exp(), batch: batch}
	}
	if p.sys.SeveralBatches() {
		for i := range p.drives {
			if first := i < p.sys.Batches; first {
				p.drives[i].batch = p.frailty()
			} else {
				p.drives[i].batch = p.drives[p.sys.Batch(i)].batch
			}
		}
	}
	for g := range p.groups {
		p.groups[g] = group{failed: p.groups[g].failed[:0], factor: p.sys.Degraded[0]}
	}
	clear(p.sets)
	p.downs, p.bare = 0, p.bare[:0]
	p.schedule()
	p.drawShock()
	if s := p.sys.Start; s != nil {
		p.beginAt(s, batch)
	}
}

// given is a law of life, and what multiplies its hazard.
type given struct {
	life law.Life
	rate float64
}

// GivenLife makes drives of the lives from now on live by that law, its hazard times
// rate, in place of what is drawn where the law is uncertain: so that many systems can
// have one draw in common.
func (p *Simulator) GivenLife(life law.Life, rate float64) { p.given = given{life, rate} }

// drawLife draws what is uncertain of the law of life, once for a whole life.
func (p *Simulator) drawLife() {
	p.life, p.rate = p.sys.Life, 1
	if p.given.life != nil {
		p.life, p.rate = p.given.life, p.given.rate
		return
	}
	if f := p.sys.Fitted; f != nil {
		p.life = f.Draw(p.rnd)
	}
	if a := p.sys.Uncertain; a > 0 {
		p.rate = p.rnd.Gamma(a)
	}
}

// frailty draws what multiplies the hazards of a batch.
func (p *Simulator) frailty() float64 {
	if v := p.sys.Frailty; v > 0 {
		return v * p.rnd.Gamma(1/v)
	}
	return 1
}

// drawShock draws when the next common-cause event comes.
func (p *Simulator) drawShock() {
	p.shock = math.Inf(1)
	if p.sys.ShockRate > 0 {
		p.shock = p.now + p.rnd.Exp()/p.sys.ShockRate
	}
}

// step goes to the next event, whatever it is.
func (p *Simulator) step() {
	const (
		horizon = iota
		shock
		restart
		drives
		sector
	)
	at, what, who := p.sys.Horizon, horizon, 0
	sooner := func(t float64, w, i int) {
		if t < at {
			at, what, who = t, w, i
		}
	}
	sooner(p.shock, shock, 0)
	if p.downs > 0 {
		for s := range p.sets {
			if p.sets[s].down {
				sooner(p.sets[s].until, restart, s)
			}
		}
	}
	i, next := p.queue.first()
	sooner(next, drives, i)
	if p.sys.ReadErrors > 0 {
		for _, g := range p.bare {
			if r := p.sectorRate(g); r > 0 {
				sooner(p.now+p.rnd.Exp()/r, sector, g)
			}
		}
	}
	p.pass(at)
	switch what {
	case shock:
		p.commonCause()
		p.drawShock()
	case restart:
		p.restart(who)
	case drives:
		if p.drives[who].state == running {
			p.fail(who)
		} else {
			p.proceed(who)
		}
	case sector:
		p.sector(who)
	}
}

func (p *Simulator) groupOf(i int) int { return i / p.sys.Drives }
func (p *Simulator) setOf(i int) int   { return i / (p.sys.Drives * p.sys.GroupsPerSet) }

// pass lets time go by up to then.
func (p *Simulator) pass(at float64) {
	if len(p.bare) > 0 {
		p.tr.Add(model.Unprotected, (at-p.now)*float64(len(p.bare)))
	}
	p.now = at
}

// sectorRate returns the hazard per hour of meeting an unreadable sector in a group
// without redundancy.
func (p *Simulator) sectorRate(g int) float64 {
	first := p.firstRebuild(g)
	if first < 0 || p.drives[first].length == 0 {
		return 0
	}
	return p.sys.ReadErrors / p.drives[first].length
}

// firstRebuild returns the drive of a group whose rebuild runs and began first, of
// several the one with the lowest number, or −1.
func (p *Simulator) firstRebuild(g int) int {
	first := -1
	for _, i := range p.groups[g].failed {
		d := &p.drives[i]
		if d.state == rebuilding && (first < 0 || d.begun < p.drives[first].begun || d.begun == p.drives[first].begun && i < first) {
			first = i
		}
	}
	return first
}
