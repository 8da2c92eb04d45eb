package branch

import (
	"math"

	"arrayodds/sim/branch/outage"
	"arrayodds/sim/history"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// begin begins an outage in a group of a line that is drawn from o: the wait of
// a drive that has just failed, or (of not none) the rebuild of a failed drive.
// Where chance has a part in its length it is drawn twice.
func (b *Simulator) begin(l *line, g, of int, o *outage.Length) {
	own := o.Draw(b.rnd)
	if l.twin == none && o.Random() {
		l.groups[g].lot = b.rnd.Float64()
		need := b.sys.Tolerance - l.groups[g].level + 1
		tilted, weight := o.DrawTilted(b.rnd, need)
		if l.main {
			b.tr.Control(model.Outages, l.w*(weight-1))
		}
		if b.sys.Groups() == 1 {
			b.detour(l, g, of, tilted, weight)
		} else {
			t := b.twinOf(l, g, weight)
			b.enter(t, g, of, tilted)
			b.push(t)
		}
		l.groups[g].shadow = true
		// What a branch was followed for its twin has now, or had: it goes on like the line
		// that it left.
		if b.states == nil && !b.leaveFork(l, g, l.groups[g].level-1) {
			l.w = 0
			return
		}
	}
	b.enter(l, g, of, own)
}

// twinOf returns the twin of a line that lives for the next failure in a group, or for
// what [spareTwin] says, with the weight of its tilted draw.
func (b *Simulator) twinOf(l *line, of int, weight float64) *line {
	t := b.copy(l)
	t.twin = of
	t.w *= weight
	t.decay *= weight
	return t
}

// detour lets a line be its own twin for as long as the twin lives, and then
// puts it back. That serves where there is only one group: then nothing happens
// in a twin's life but waits that end, and no copy is needed.
func (b *Simulator) detour(l *line, g, of int, length, weight float64) {
	now, w, decay, clean, past, lot := l.now, l.w, l.decay, l.clean, l.past, l.groups[g].lot
	b.kept = append(b.kept[:0], l.down...)
	l.twin = g
	l.w *= weight
	l.decay *= weight
	b.enter(l, g, of, length)
	for {
		at, what := l.nextScheduled(b.sys.Horizon, false)
		b.ahead(l, at-l.now, b.forced(l))
		if what == none || l.down[what].state == rebuilding {
			break
		}
		l.now = at
		b.ready(l, what)
	}
	l.twin = none
	l.now, l.w, l.decay, l.clean, l.past, l.groups[g].lot = now, w, decay, clean, past, lot
	l.down = append(l.down[:0], b.kept...)
}

// enter enters the length that was drawn for an outage.
func (b *Simulator) enter(l *line, g, of int, length float64) {
	if of == none {
		b.enterWait(l, g, length)
		return
	}
	b.enterRebuild(l, of, length)
}

// repair sends the drive that has just failed in a group on its way back.
func (b *Simulator) repair(l *line, g int) {
	r := &b.sys.Repair
	if r.Restore != nil {
		l.down = append(l.down, downDrive{group: g, state: queued, at: math.Inf(1), begun: l.now})
		b.noteTurn(l, history.Queue, g, 0)
		b.ready(l, len(l.down)-1)
		return
	}
	if l.takeSpare() {
		b.takeSpareFor(l, g)
		return
	}
	b.begin(l, g, none, &b.wait)
}

// enterWait enters a wait; where the response counts open hours the length
// given is the notice alone.
func (b *Simulator) enterWait(l *line, g int, length float64) {
	length = max(0, length) // by rounding only
	if o := b.sys.Repair.Response.Open; o != nil {
		length += o.From(b.hour(l.now + length))
	}
	l.down = append(l.down, downDrive{group: g, state: waiting, at: l.now + length})
	b.noteTurn(l, history.Wait, g, l.now+length)
}

// ready is called when the wait of a failed drive is over: its rebuild starts
// or queues.
func (b *Simulator) ready(l *line, i int) {
	d := &l.down[i]
	if d.state == waiting {
		b.noteTurn(l, history.Ready, d.group, 0)
	}
	d.state, d.at, d.begun = queued, math.Inf(1), l.now
	if b.sys.Repair.Parallel || l.firstRebuild(d.group) == nil {
		b.rebuild(l, i)
	}
}

// startQueued starts the rebuild of the drive of a group that has been ready
// for longest, if there is one.
func (b *Simulator) startQueued(l *line, g int) {
	first := none
	for i := range l.down {
		d := &l.down[i]
		if d.group == g && d.state == queued && (first == none || d.begun < l.down[first].begun) {
			first = i
		}
	}
	if first != none {
		b.rebuild(l, first)
	}
}

// rebuild starts a rebuild now.
func (b *Simulator) rebuild(l *line, i int) {
	if b.sys.Repair.Restore == nil {
		b.enterRebuild(l, i, b.sys.Repair.Rebuild)
		return
	}
	b.begin(l, l.down[i].group, i, &b.restore)
}

func (b *Simulator) enterRebuild(l *line, i int, length float64) {
	d := &l.down[i]
	d.state, d.begun, d.length, d.at = rebuilding, l.now, length, l.now+length
	b.noteTurn(l, history.Rebuild, d.group, length)
}

// drawRestart draws how long a lost set takes to start again.
func (b *Simulator) drawRestart(now float64) float64 {
	r := &b.sys.Repair
	if r.Restore != nil {
		return r.Restore.Draw(b.rnd)
	}
	notice := r.Notice.Draw(b.rnd)
	return notice + b.drawWait(&r.Response, now+notice)
}

func (b *Simulator) drawWait(w *model.Wait, now float64) float64 {
	if w.Open != nil {
		return w.Open.From(b.hour(now))
	}
	return w.Law.Draw(b.rnd)
}

// hour returns the hour of the week of a time of this life.
func (b *Simulator) hour(t float64) float64 { return math.Mod(b.phase+t, law.WeekHours) }
