package plain

import (
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Trace simulates one life as [Simulator.Life] does, from the same draws, and writes
// it into rec, which is empty. It
// reports whether the life came to its end; one that has more events than a record
// holds does not.
func (p *Simulator) Trace(rnd *stream.Stream, tr *model.Trial, rec *history.Record) bool {
	p.rnd, p.tr, p.rec = rnd, tr, rec
	defer func() { p.rec = nil }()
	p.begin()
	rec.Phase, rec.Life, rec.Rate, rec.Batch = p.phase, p.life, p.rate, p.drives[0].batch
	return p.toTheEnd() && !rec.Full // which the last step may have made it
}

func (p *Simulator) noteDrive(kind history.Kind, i int) { p.noteUntil(kind, i, 0) }

func (p *Simulator) noteUntil(kind history.Kind, i int, until float64) {
	if p.rec == nil {
		return
	}
	p.rec.Add(history.Event{At: p.now, Kind: kind, Bay: i, Group: p.groupOf(i), Set: p.setOf(i), Until: until})
}

func (p *Simulator) noteGroup(kind history.Kind, g int) {
	if p.rec == nil {
		return
	}
	p.rec.Add(history.Event{At: p.now, Kind: kind, Group: g, Set: g / p.sys.GroupsPerSet})
}

func (p *Simulator) noteLoss(g int, bySector bool) {
	if p.rec == nil {
		return
	}
	s := g / p.sys.GroupsPerSet
	p.rec.Add(history.Event{At: p.now, Kind: history.LosesSet, Group: g, Set: s, Until: p.sets[s].until, BySector: bySector})
}

func (p *Simulator) noteStart(s int) {
	if p.rec == nil {
		return
	}
	p.rec.Add(history.Event{At: p.now, Kind: history.StartsAgain, Set: s})
}

// noteCommon leaves out an event that strikes nothing.
func (p *Simulator) noteCommon(struck [][]int) {
	if p.rec == nil {
		return
	}
	for _, drives := range struck {
		if len(drives) > 0 {
			p.rec.Add(history.Event{At: p.now, Kind: history.CommonCause})
			return
		}
	}
}
