package branch

import (
	"math"

	"arrayodds/sim/branch/sample"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// none stands for no drive of the young, no group of a twin.
const none = -1

// line is one course of events.
type line struct {
	now   float64
	w     float64 // weight
	decay float64 // w ÷ the weight with which the line came to its level
	clean float64 // share of w in which no incident has been yet
	lost  bool    // a group has been lost before
	ran   bool    // all drives ran at some time, of a life that begins with some down

	failures int
	free     int       // hot spares
	returns  []float64 // when those taken are back

	groups   []group
	sets     []set
	downSets int
	down     []downDrive // failed drives of sets that are up
	young    []youngDrive
	near     law.Near // of the originals
	crowd    crowd
	calm     int // original drives in whole groups of sets that are up
	sharing  model.Sharing

	// strikes is the group of which a drive fails now, the first thing that
	// happens to a branch when it is taken up; none otherwise. struck is which
	// of the young, or none.
	strikes, struck int

	main   bool // the life's main line, one that has come back to it, or a twin of either
	ratios []ratio
	twin   int  // the group for whose next failure it lives, or spareTwin; none for a line of its own
	shadow bool // a twin sees to the next failure in a whole group

	past *sample.Past // what it has come through, where that is recorded
}

// group is one group of drives.
type group struct {
	original int     // running drives of time zero; all running ones where drives are alike
	running  int     // running drives
	level    int     // drives down
	shadow   bool    // a twin sees to the next failure
	lot      float64 // of the outage: by it the line goes on, or a branch of its twin in its place
	bounds   float64 // of the hazards of its young drives, added up
	cleared  float64 // when its latent defects were last cleared
	looked   int     // the last window in which it was looked at
}

// set is the groups that are lost together.
type set struct {
	down  bool
	until float64 // when it starts again
	since float64 // since when it stores
}

// youngDrive is a running drive that came after time zero.
type youngDrive struct {
	group   int
	install float64
	batch   float64 // multiplies its hazard
	bound   float64 // of its hazard per hour over the rest of the life, rate left out; +Inf for none
	near    law.Near
	crowded bool // it is in the line's crowd
	known   int  // defects of it that are known
}

// downDrive is a failed drive on its way back.
type downDrive struct {
	group  int
	state  state
	at     float64 // when the wait or the rebuild ends; +Inf while queued
	begun  float64 // of a rebuild, or of the stay in the queue
	length float64
}

type state int

const (
	waiting state = iota
	queued
	rebuilding
)

// ratio remembers a fork: the branch left that level of that group with that
// share of the weight, with so many spares out, and goes on from there by that lot.
type ratio struct {
	group, level int
	waiting, out int // drives of the group that wait, and hot spares out
	share, lot   float64
	shock        bool // it is a common-cause event's, not a failure's
}

func (l *line) begin(sys *model.System) {
	groups, sets := l.groups[:0], l.sets[:0]
	for range sys.Groups() {
		groups = append(groups, group{original: sys.Drives, running: sys.Drives})
	}
	for range sys.Sets {
		sets = append(sets, set{})
	}
	l.sharing.Reset(sys.Sets)
	*l = line{
		main: true, clean: 1, free: sys.Spares, twin: none, strikes: none,
		groups: groups, sets: sets, calm: sys.Groups() * sys.Drives,
		returns: l.returns[:0], down: l.down[:0], young: l.young[:0], ratios: l.ratios[:0],
		sharing: l.sharing,
	}
}

// copyFrom makes l the same line as o, in memory of its own.
func (l *line) copyFrom(o *line) {
	returns := append(l.returns[:0], o.returns...)
	groups := append(l.groups[:0], o.groups...)
	sets := append(l.sets[:0], o.sets...)
	down := append(l.down[:0], o.down...)
	young := append(l.young[:0], o.young...)
	ratios := append(l.ratios[:0], o.ratios...)
	sharing := l.sharing
	sharing.CopyFrom(&o.sharing)
	*l = *o
	l.returns, l.groups, l.sets, l.down, l.young, l.ratios, l.sharing = returns, groups, sets, down, young, ratios, sharing
}

func (b *Simulator) newLine() *line {
	if n := len(b.idle); n > 0 {
		l := b.idle[n-1]
		b.idle = b.idle[:n-1]
		return l
	}
	return new(line)
}

func (b *Simulator) copy(l *line) *line {
	c := b.newLine()
	c.copyFrom(l)
	return c
}

func (b *Simulator) push(l *line) { b.stack = append(b.stack, l) }

// release gives a line that is not on the stack back.
func (b *Simulator) release(l *line) { b.idle = append(b.idle, l) }

// end takes a line off the stack. The one that ends is the one that is
// followed, but what it has just pushed may lie above it.
func (b *Simulator) end(l *line) {
	for i := len(b.stack) - 1; ; i-- {
		if b.stack[i] == l {
			b.stack = append(b.stack[:i], b.stack[i+1:]...)
			break
		}
	}
	b.release(l)
}

// nominal returns the weight with which the line came to its level.
func (l *line) nominal() float64 { return l.w / l.decay }

// becomeBranch makes a copy of a line, or of a twin, a line of its own with
// weight w.
func (l *line) becomeBranch(w float64) {
	l.w, l.decay, l.twin, l.main, l.shadow = w, 1, none, false, false
	for i := range l.groups {
		l.groups[i].shadow = false
	}
}

// roulette ends a line of that weight, or raises it to the weight it is held against.
// It reports whether the line goes on.
func (b *Simulator) roulette(l *line, nominal float64) bool {
	return b.byLot(l, nominal, b.rnd.Float64())
}

// byLot is roulette with an even number that was drawn before.
func (b *Simulator) byLot(l *line, nominal, lot float64) bool {
	if l.w < nominal {
		if lot*nominal >= l.w {
			b.added(l.now, -l.w)
			return false
		}
		b.added(l.now, nominal-l.w)
		l.w = nominal
	}
	l.decay = l.w / nominal
	return true
}

// added notes that a weight came into the life at a time, or went. The weights of its lines
// come to 1 in the mean at any time, so what comes less what goes is known to be chance.
func (b *Simulator) added(at, weight float64) {
	b.tr.Control(model.Weights, weight*(1-at/b.sys.Horizon))
}

// counts returns the weight with which a line counts events. A twin counts none: the
// line that it belongs to sees the same, in the mean, up to the window in which a branch
// leaves, and the branch counts that window itself.
func (l *line) counts() float64 {
	if l.twin != none {
		return 0
	}
	return l.w
}

// nextScheduled returns the time of the next event that is certain to come, at most
// the horizon, and what it is: the index of a failed drive, or of a set as −2 −
// index, spareBack where the line looks at that, or none for the horizon.
func (l *line) nextScheduled(horizon float64, spares bool) (at float64, what int) {
	at, what = horizon, none
	if spares {
		if _, x := l.nextBack(); max(l.now, x) < at {
			at, what = max(l.now, x), spareBack
		}
	}
	for i := range l.down {
		if x := l.down[i].at; x < at {
			at, what = x, i
		}
	}
	if l.downSets > 0 {
		for i := range l.sets {
			if s := &l.sets[i]; s.down && s.until < at {
				at, what = s.until, -2-i
			}
		}
	}
	return at, what
}

// takeSpare takes a hot spare if one is free now.
func (l *line) takeSpare() bool {
	for i := 0; i < len(l.returns); {
		if l.returns[i] > l.now {
			i++
			continue
		}
		l.free++
		l.returns[i] = l.returns[len(l.returns)-1]
		l.returns = l.returns[:len(l.returns)-1]
	}
	if l.free == 0 {
		return false
	}
	l.free--
	return true
}

// firstRebuild returns the running rebuild of a group that began first, or nil.
func (l *line) firstRebuild(g int) *downDrive {
	var first *downDrive
	begun := math.Inf(1)
	for i := range l.down {
		if d := &l.down[i]; d.group == g && d.state == rebuilding && d.begun < begun {
			first, begun = d, d.begun
		}
	}
	return first
}
