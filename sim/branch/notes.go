package branch

import (
	"arrayodds/sim/branch/sample"
	"arrayodds/sim/history"
)

// Sample makes the simulator pass the first losses of its lives to a sample from
// now on; nil ends that.
func (b *Simulator) Sample(s *sample.Losses) { b.sample = s }

// note adds a step to the past of a line, where that may still be caught.
func (b *Simulator) note(l *line, s history.Step) {
	if !l.lost {
		l.past = l.past.Then(s)
	}
}

// noteFailure notes that a drive of a group, still running, fails.
func (b *Simulator) noteFailure(l *line, g, young int) {
	if b.sample != nil {
		b.note(l, history.Step{At: l.now, What: history.Failure, Group: g, Drive: b.driveOf(l, young)})
	}
}

// noteTurn notes what becomes of a failed drive.
func (b *Simulator) noteTurn(l *line, what history.Move, g int, hours float64) {
	if b.sample != nil {
		b.note(l, history.Step{At: l.now, What: what, Group: g, Hours: hours})
	}
}

// noteRestored notes the drive that has just been put back.
func (b *Simulator) noteRestored(l *line, g int) {
	if b.sample == nil {
		return
	}
	batch := 1.0
	if b.perHour == 0 {
		batch = l.young[len(l.young)-1].batch
	}
	b.note(l, history.Step{At: l.now, What: history.Finished, Group: g, Batch: batch})
}

// driveOf describes a running drive: of the young, or an original where young is
// none.
func (b *Simulator) driveOf(l *line, young int) history.Drive {
	switch {
	case b.perHour > 0:
		return history.Drive{Any: true}
	case young == none:
		return history.Drive{Batch: b.batch}
	}
	return history.Drive{Install: l.young[young].install, Batch: l.young[young].batch}
}

// marksPassed counts a first loss of weight w and returns how many marks of the sample it
// passes.
func (b *Simulator) marksPassed(w float64) (marks int) {
	if b.sample == nil {
		return 0
	}
	return b.sample.Passed(w)
}

// catch adds the past of a line with the loss that ends it to the sample.
func (b *Simulator) catch(l *line, loss history.Loss) {
	b.sample.Catch(history.History{Phase: b.phase, Life: b.life.Law(), Rate: b.rate, Batch: b.batch, Loss: loss}, l.past)
}

// aside makes draw draw from the sample's stream.
func (b *Simulator) aside(draw func()) {
	own := b.rnd
	b.rnd = b.sample.Stream
	draw()
	b.rnd = own
}

// edgeLoss returns the loss of a group at its tolerance x hours from now, as it is
// caught. young is the drive that fails, where it was picked already.
func (b *Simulator) edgeLoss(l *line, g int, x float64, bySector, picked bool, young int) history.Loss {
	loss := history.Loss{At: l.now + x, By: history.ByDrive, Group: g}
	switch {
	case bySector:
		loss.By = history.ByReadError
	case picked:
		loss.Drive = b.driveOf(l, young)
	default:
		b.aside(func() { loss.Drive = b.driveOf(l, b.pickDrive(l, g, x)) })
	}
	return loss
}

// shockLoss returns a loss by common cause, as it is caught.
func (b *Simulator) shockLoss(at float64) history.Loss {
	loss := history.Loss{At: at, By: history.ByCommon, Struck: make([]int, b.sys.Groups())}
	loss.Group = b.strikes.DrawLoss(b.sample.Stream, b.hits, loss.Struck)
	return loss
}
