package splitting

import "arrayodds/sim/law"

// line is one copy of a life, not lost yet.
type line struct {
	now, weight float64
	groups      []group
	back        []float64 // when the spares that are out come back
}

// group is a group of drives. All that run are as old as the life, but for young.
type group struct {
	fresh   int // running since time zero
	young   []drive
	down    []place
	pending int     // drives that failed just now; their wait is not drawn yet
	cleared float64 // when its latent defects were cleared last
}

// drive is a running drive that was restored.
type drive struct{ install, batch float64 }

// place is a drive that is down.
type place struct {
	doing  doing
	at     float64 // when its wait or its rebuild ends; while queued, since when
	begun  float64 // of the rebuild
	length float64
}

type doing int

const (
	waiting doing = iota
	queued
	rebuilding
)

// downNow returns how many drives of the group are down.
func (g *group) downNow() int { return len(g.down) + g.pending }

// copyTo makes to a copy of the line, and keeps the memory of to.
func (l *line) copyTo(to *line) {
	to.now, to.weight = l.now, l.weight
	to.back = append(to.back[:0], l.back...)
	if to.groups == nil {
		to.groups = make([]group, len(l.groups))
	}
	for i := range l.groups {
		from, g := &l.groups[i], &to.groups[i]
		young, down := append(g.young[:0], from.young...), append(g.down[:0], from.down...)
		*g = *from
		g.young, g.down = young, down
	}
}

// begin makes l a life with all drives new.
func (l *line) begin(groups, drives int) {
	if l.groups == nil {
		l.groups = make([]group, groups)
	}
	l.now, l.weight, l.back = 0, 1, l.back[:0]
	for i := range l.groups {
		g := &l.groups[i]
		*g = group{fresh: drives, young: g.young[:0], down: g.down[:0]}
	}
}

// firstRebuild returns the length of the rebuild of a group that runs and began first,
// or 0 where none runs.
func (g *group) firstRebuild() (length float64) {
	begun := 0.0
	for _, d := range g.down {
		if d.doing == rebuilding && (length == 0 || d.begun < begun) {
			length, begun = d.length, d.begun
		}
	}
	return length
}

// hazards of a whole life.
type fate struct {
	phase float64 // hour of the week at time zero
	life  law.Life
	rate  float64 // multiplies every hazard
	batch float64 // multiplies those of the drives of time zero
}
