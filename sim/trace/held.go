package trace

import (
	"math"

	"arrayodds/sim/history"
	"arrayodds/sim/model"
)

// ledger follows how much of what was recorded is still there. Of each moment's
// footage every set that was up has an equal share, until it is lost or older
// than the ring reaches.
type ledger struct {
	now    float64
	pieces []piece // of the past, by time; the last one runs on
	rings  []ring
	points thinned
}

// piece is a time in which the same sets were up.
type piece struct {
	from float64
	up   int
	left float64 // share of its footage that no loss has destroyed
}

// ring is the camera groups whose footage reaches back equally far.
type ring struct {
	held float64
	rate float64 // camera-hours recorded an hour
	tail int     // the piece in which its oldest footage lies
	sum  float64 // hours of footage that are held
}

// heldWithin is how far straight lines between the points may be off, as a
// share of a full ring.
const heldWithin = 0.002

// held returns the footage held over a life; nil without cameras. Stripes that were skipped are too
// little to show.
func held(sys *model.System, events []history.Event) []Held {
	rings := rings(&sys.Footage)
	if len(rings) == 0 {
		return nil
	}
	full, rate := 0.0, 0.0
	for _, r := range rings {
		full += r.rate * r.held
		rate += r.rate
	}
	if full == 0 {
		return nil
	}
	l := &ledger{
		pieces: []piece{{from: math.Inf(-1)}, {from: 0, up: sys.Sets, left: 1}},
		rings:  rings,
		points: thinned{within: heldWithin * full / rate},
	}
	l.points.add(0, 0)
	since, up := make([]float64, sys.Sets), sys.Sets
	for _, e := range events {
		switch e.Kind {
		case history.LosesSet:
			l.advance(e.At)
			l.lose(since[e.Set])
			up--
			l.begin(up)
		case history.StartsAgain:
			l.advance(e.At)
			since[e.Set] = e.At
			up++
			l.begin(up)
		}
	}
	l.advance(sys.Horizon)
	return l.points.all()
}

// rings returns the camera groups, those of which footage reaches back equally far
// as one.
func rings(f *model.Footage) (rings []ring) {
next:
	for _, r := range f.Rings() {
		for i := range rings {
			if rings[i].held == r.Held {
				rings[i].rate += r.Rate
				continue next
			}
		}
		rings = append(rings, ring{held: r.Held, rate: r.Rate})
	}
	return rings
}

// advance lets time go by. Footage comes at the front and goes at the tail, so
// what is held changes in a straight line until a tail comes to another piece.
func (l *ledger) advance(to float64) {
	last := len(l.pieces) - 1
	for l.now < to {
		next := to
		for i := range l.rings {
			if r := &l.rings[i]; r.tail < last {
				next = math.Min(next, math.Max(l.now, l.pieces[r.tail+1].from+r.held))
			}
		}
		for i := range l.rings {
			r := &l.rings[i]
			r.sum += (l.pieces[last].left - l.pieces[r.tail].left) * (next - l.now)
			if r.tail < last && l.pieces[r.tail+1].from+r.held <= next {
				r.tail++
			}
		}
		l.now = next
		l.point()
	}
}

// lose takes away the share of a set that has stored since then.
func (l *ledger) lose(since float64) {
	longest := 0.0
	for _, r := range l.rings {
		longest = math.Max(longest, r.held)
	}
	to := l.now
	for k := len(l.pieces) - 1; k > 0 && l.pieces[k].from >= since && to >= l.now-longest; k-- {
		p := &l.pieces[k]
		if p.up > 0 { // it is 0 only where the set stopped and started at one time
			share := 1 / float64(p.up)
			p.left -= share
			for i := range l.rings {
				r := &l.rings[i]
				if from := math.Max(p.from, l.now-r.held); from < to {
					r.sum -= share * (to - from)
				}
			}
		}
		to = p.from
	}
	l.point()
}

// begin starts a piece with so many sets up.
func (l *ledger) begin(up int) {
	p := piece{from: l.now, up: up}
	if up > 0 {
		p.left = 1
	}
	l.pieces = append(l.pieces, p)
}

// point adds what is held now to the curve.
func (l *ledger) point() {
	sum, rate := 0.0, 0.0
	for _, r := range l.rings {
		sum += r.rate * math.Max(0, math.Min(r.held, r.sum))
		rate += r.rate
	}
	l.points.add(l.now, sum/rate)
}
