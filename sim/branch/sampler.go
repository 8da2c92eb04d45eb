package branch

import (
	"slices"

	"arrayodds/sim/history"
	"arrayodds/sim/stream"
)

// A Sampler draws first losses, with all that led to them, from the lives of a
// simulator. A first loss of a line is a sample of the law of lives up to their
// first loss, with the weight with which it is counted; the sampler catches those
// at which the sum of these weights passes given marks. Marks that lie evenly so
// draw in proportion to weight. Make it with [NewSampler].
//
// It changes no digit of what a simulator computes: what it has to draw itself
// comes from its own stream.
type Sampler struct {
	Marks   []float64         // still to be passed, ascending
	Caught  []history.History // one for each mark passed
	TooLong bool              // a line had more than history.MaxEvents steps and was not caught

	rnd *stream.Stream
	sum float64 // weight of first losses so far
}

// NewSampler returns a sampler that catches the first losses at these marks,
// ascending sums of weights.
func NewSampler(marks []float64, rnd *stream.Stream) *Sampler {
	return &Sampler{Marks: marks, rnd: rnd}
}

// Sample makes the simulator pass the first losses of its lives to a sampler from
// now on; nil ends that.
func (b *Simulator) Sample(s *Sampler) { b.sampler = s }

// past is the steps of a line, the last one first. Lines that branch share what
// lies before; so a step is never changed.
type past struct {
	step   history.Step
	before *past
	depth  int
}

// note adds a step to the past of a line, where that may still be caught.
func (b *Simulator) note(l *line, s history.Step) {
	depth := 1
	if l.past != nil {
		depth += l.past.depth
	}
	if l.lost || depth > history.MaxEvents+1 {
		return
	}
	l.past = &past{s, l.past, depth}
}

// noteFailure notes that a drive of a group, still running, fails.
func (b *Simulator) noteFailure(l *line, g, young int) {
	if b.sampler != nil {
		b.note(l, history.Step{At: l.now, What: history.Failure, Group: g, Drive: b.driveOf(l, young)})
	}
}

// noteTurn notes what becomes of a failed drive.
func (b *Simulator) noteTurn(l *line, what history.Move, g int, hours float64) {
	if b.sampler != nil {
		b.note(l, history.Step{At: l.now, What: what, Group: g, Hours: hours})
	}
}

// noteRestored notes the drive that has just been put back.
func (b *Simulator) noteRestored(l *line, g int) {
	if b.sampler == nil {
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

// marksPassed counts a first loss of weight w and returns how many marks it passes:
// mostly none.
func (b *Simulator) marksPassed(w float64) (marks int) {
	if b.sampler == nil {
		return 0
	}
	s := b.sampler
	s.sum += w
	for marks < len(s.Marks) && s.Marks[marks] <= s.sum {
		marks++
	}
	s.Marks = s.Marks[marks:]
	return marks
}

// catch adds the past of a line with the loss that ends it.
func (b *Simulator) catch(l *line, loss history.Loss) {
	if l.past != nil && l.past.depth > history.MaxEvents {
		b.sampler.TooLong = true
		return
	}
	h := history.History{Phase: b.phase, Life: b.life.Law(), Rate: b.rate, Batch: b.batch, Loss: loss}
	for p := l.past; p != nil; p = p.before {
		h.Steps = append(h.Steps, p.step)
	}
	slices.Reverse(h.Steps)
	b.sampler.Caught = append(b.sampler.Caught, h)
}

// aside makes draw draw from the sampler's stream.
func (b *Simulator) aside(draw func()) {
	own := b.rnd
	b.rnd = b.sampler.rnd
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
	loss.Group = b.strikes.DrawLoss(b.sampler.rnd, b.hits, loss.Struck)
	return loss
}
