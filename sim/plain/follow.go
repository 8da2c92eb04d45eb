package plain

import (
	"math"

	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Follow simulates the life that a history begins: as the history has it up to and with
// its first loss, and by the ordinary law from there. Which of several drives that are
// alike is meant, where the history leaves that open, is drawn. Else it is as
// [Simulator.Trace].
func (p *Simulator) Follow(h *history.History, rnd *stream.Stream, tr *model.Trial, rec *history.Record) bool {
	p.rnd, p.tr, p.rec = rnd, tr, rec
	defer func() { p.rec = nil }()
	p.begin()
	p.phase, p.life, p.rate = h.Phase, h.Life, h.Rate
	for i := range p.drives {
		p.drives[i].batch = h.Batch
	}
	rec.Phase, rec.Life, rec.Rate, rec.Batch = h.Phase, h.Life, h.Rate, h.Batch
	for i := range h.Steps {
		p.move(&h.Steps[i])
	}
	p.comeTo(h.Loss.At)
	// Of what is to come nothing is known but what waits and rebuilds have left.
	for i := range p.drives {
		d := &p.drives[i]
		d.budget, d.since = p.rnd.Exp(), p.now
		if d.state == running {
			p.foresee(i)
		}
	}
	p.drawShock()
	p.loseAs(&h.Loss)
	return p.toTheEnd() && !rec.Full
}

// comeTo lets time go by without looking at hazards.
func (p *Simulator) comeTo(at float64) {
	p.now = math.Min(math.Max(p.now, at), math.Nextafter(p.sys.Horizon, 0)) // by rounding only
}

// move makes one step of a history.
func (p *Simulator) move(s *history.Step) {
	p.comeTo(s.At)
	switch s.What {
	case history.Failure:
		p.breakDown(p.pick(s.Group, s.Drive))
	case history.Common:
		if p.rec != nil {
			p.rec.Add(history.Event{At: p.now, Kind: history.CommonCause})
		}
	case history.Wait:
		i := p.first(s.Group, failed)
		d := &p.drives[i]
		d.state = waiting
		p.until(i, s.Hours)
	case history.Spare:
		i := p.first(s.Group, failed)
		if !p.takeSpare() {
			panic("plain: a history takes a hot spare where there is none")
		}
		p.returns = append(p.returns, s.Hours)
		p.noteUntil(history.TakesSpare, i, s.Hours)
		p.drives[i].state, p.drives[i].at = queued, p.now
	case history.Queue:
		d := &p.drives[p.first(s.Group, failed)]
		d.state, d.at = queued, p.now
	case history.Ready:
		p.ready(p.first(s.Group, waiting))
	case history.Rebuild:
		p.rebuild(p.first(s.Group, queued), s.Hours)
	case history.Finished:
		i := p.first(s.Group, rebuilding)
		p.restored(i)
		p.drives[i].install, p.drives[i].batch = s.At, s.Batch
	}
}

// first returns the drive of a group in that state that leaves it, or came to it,
// first.
func (p *Simulator) first(g int, s state) int {
	first := -1
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		if d := &p.drives[i]; d.state == s && (first < 0 || d.at < p.drives[first].at) {
			first = i
		}
	}
	if first < 0 {
		panic("plain: a history moves a drive that is not there")
	}
	return first
}

// pick draws one of the running drives of a group that are as described.
func (p *Simulator) pick(g int, as history.Drive) int {
	chosen, alike := -1, 0
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		d := &p.drives[i]
		if d.state != running || !as.Any && (d.install != as.Install || d.batch != as.Batch) {
			continue
		}
		if alike++; p.rnd.Intn(alike) == 0 {
			chosen = i
		}
	}
	if chosen < 0 {
		panic("plain: a history has a drive fail that is not there")
	}
	return chosen
}

// loseAs is the first loss of a history.
func (p *Simulator) loseAs(l *history.Loss) {
	switch l.By {
	case history.ByDrive:
		p.fail(p.pick(l.Group, l.Drive))
	case history.ByReadError:
		p.sector(l.Group)
	case history.ByDefect:
		p.noteGroup(history.MeetsDefects, l.Group)
		p.lose(l.Group, model.Unreadable)
		// Where several drives failed at once, the groups behind this one have
		// not been seen to yet.
		p.afterStrike(p.failed())
	case history.ByCommon:
		struck := make([][]int, len(p.groups))
		for g, n := range l.Struck {
			struck[g] = p.some(g, n)
		}
		p.strike(struck)
	}
}

// failed is, by group, the drives whose way back is not drawn yet.
func (p *Simulator) failed() [][]int {
	drives := make([][]int, len(p.groups))
	for i := range p.drives {
		if p.drives[i].state == failed {
			drives[p.groupOf(i)] = append(drives[p.groupOf(i)], i)
		}
	}
	return drives
}

// some draws n of the running drives of a group.
func (p *Simulator) some(g, n int) (drives []int) {
	left := 0
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		if p.drives[i].state == running {
			left++
		}
	}
	for i := g * p.sys.Drives; i < (g+1)*p.sys.Drives; i++ {
		if p.drives[i].state != running {
			continue
		}
		if p.rnd.Intn(left) < n {
			drives = append(drives, i)
			n--
		}
		left--
	}
	return drives
}
