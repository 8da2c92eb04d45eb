package trace

import "math"

// thinned keeps of a curve that is straight between its points as many points
// as it takes for the lines between those to be right to within, everywhere.
// Where the curve jumps there are two points at one time.
type thinned struct {
	within    float64
	kept      []Held
	last      Held    // not kept yet
	low, high float64 // slopes from the last one kept that serve all since
	pending   bool
}

// add adds a point, at the time of the one before or later.
func (t *thinned) add(at, hours float64) {
	p := Held{at, hours}
	if len(t.kept) == 0 {
		t.keep(p)
		return
	}
	before := t.kept[len(t.kept)-1]
	if t.pending {
		before = t.last
	}
	if at == before.At {
		if math.Abs(hours-before.Hours) > t.within { // a jump
			t.flush()
			t.keep(p)
		}
		return
	}
	slope, room := t.slopeTo(p)
	if t.pending && (slope < t.low || slope > t.high) {
		t.flush()
		slope, room = t.slopeTo(p)
	}
	t.low, t.high = math.Max(t.low, slope-room), math.Min(t.high, slope+room)
	t.last, t.pending = p, true
}

// slopeTo returns the slope from the last point kept to p, and how far it may be off
// for the line to pass p within reach.
func (t *thinned) slopeTo(p Held) (slope, room float64) {
	k := t.kept[len(t.kept)-1]
	dt := p.At - k.At
	return (p.Hours - k.Hours) / dt, t.within / dt
}

func (t *thinned) keep(p Held) {
	t.kept = append(t.kept, p)
	t.pending = false
	t.low, t.high = math.Inf(-1), math.Inf(1)
}

func (t *thinned) flush() {
	if t.pending {
		t.keep(t.last)
	}
}

// all returns the points kept; the last one that was added is among them.
func (t *thinned) all() []Held {
	t.flush()
	return t.kept
}
