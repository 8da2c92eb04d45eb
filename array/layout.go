package array

import "fmt"

// A Level is a way of laying data over drives, by the trade's name. The levels
// are those of the SNIA dictionary and of the SNIA Common RAID Disk Data Format
// specification.
type Level int

// The levels that a choice can have.
const (
	JBOD Level = iota
	RAID0
	RAID1
	RAID10
	RAID5
	RAID6
	RAID50
	RAID60
	TripleParity
	Erasure // k data and m parity drives
)

// row is all that is known of a level. What a layout is for the rest of the
// program follows from its row.
type row struct {
	name string

	// What tolerates failures, and how many: as many as it has drives' worth of
	// parity, or all but one where it mirrors. A code has them in its name, k+m.
	group  grouping
	parity int
	mirror bool
	code   bool

	lost  scope // what is lost with one group
	least int   // drives that each of the choice's groups must have

	// width is what such a group is made of by custom, and widthWords how a
	// sentence says so behind the greatest number of drives; empty where none
	// needs to.
	width      Width
	widthWords string

	// unasked is why the level is not suggested where no choice names it; empty
	// where it is.
	unasked string
}

// grouping says what tolerates failures by itself, which [Shape] calls a group.
type grouping int

const (
	whole   grouping = iota // each of the groups that the choice is divided into
	pairs                   // the mirrored pairs of such a group
	singles                 // every drive
)

// scope is what is lost together.
type scope int

const (
	itself   scope = iota // the group alone
	itsGroup              // all pairs of one of the choice's groups
	allOfIt               // the whole choice, which stripes over its groups
)

// levels is the table of layouts, in the order in which they are explained. A new
// layout is a row: its name is then read, its shape, its loss, the drives that it
// takes and its place among the others follow.
//
// The least numbers of drives a group are 2 for a mirror, 3 for single parity and
// 4 for double and triple parity. Widths are common practice, without a source:
// wider groups rebuild for longer beside more drives that may fail.
var levels = []row{
	JBOD: {name: "JBOD", group: singles, least: 1, width: Width{1, MaxDrives}},
	RAID0: {name: "RAID 0", least: 1, width: Width{2, 8},
		unasked: "a JBOD of as many drives holds as much and loses less"},
	RAID1:        {name: "RAID 1", mirror: true, least: 2, width: Width{2, 2}},
	RAID10:       {name: "RAID 10", group: pairs, parity: 1, lost: itsGroup, least: 2, width: Width{4, 16}, widthWords: "in RAID 10"},
	RAID5:        {name: "RAID 5", parity: 1, least: 3, width: Width{3, 8}, widthWords: "with single parity"},
	RAID6:        {name: "RAID 6", parity: 2, least: 4, width: Width{4, 12}, widthWords: "with double"},
	RAID50:       {name: "RAID 50", parity: 1, lost: allOfIt, least: 3, width: Width{3, 8}},
	RAID60:       {name: "RAID 60", parity: 2, lost: allOfIt, least: 4, width: Width{4, 12}},
	TripleParity: {name: "triple parity", parity: 3, least: 4, width: Width{5, 16}, widthWords: "with triple parity"},
	Erasure:      {name: "erasure code", code: true, unasked: "its name says how wide it is"},
}

// row returns the row of the level; false where there is none.
func (l Level) row() (row, bool) {
	if l < 0 || int(l) >= len(levels) {
		return row{}, false
	}
	return levels[l], true
}

// Levels lists the levels with a name of their own, in the order in which they are
// explained; an erasure code is written k+m.
func Levels() []Level {
	var all []Level
	for i, r := range levels {
		if !r.code {
			all = append(all, Level(i))
		}
	}
	return all
}

// ParityLevels lists levels that differ in their parity alone, from none upward:
// those that stripe over their groups where the level does, else those whose groups
// are lost by themselves.
func (l Level) ParityLevels() []Level {
	own, _ := l.row()
	var all []Level
	for i, r := range levels {
		striped := r.lost == allOfIt
		if r.unasked == "" && !r.mirror && r.group != pairs && striped == (own.lost == allOfIt) {
			all = append(all, Level(i))
		}
	}
	return all
}

// Parity returns how many drives of a group are parity, which is how many failures
// it survives. It is 0 for mirrors and for codes, whose level does not say it.
func (l Level) Parity() int {
	r, _ := l.row()
	return r.parity
}

// Mirrors reports whether a layout of the level is redundant by copies, and so has no
// parity.
func (l Level) Mirrors() bool {
	r, _ := l.row()
	return r.mirror
}

// String returns the level as the trade writes it.
func (l Level) String() string {
	r, ok := l.row()
	if !ok {
		return fmt.Sprintf("level %d", int(l))
	}
	return r.name
}

// A Layout is a level, with its numbers where the level does not give them.
type Layout struct {
	Level        Level
	Data, Parity int // of an erasure code: k and m
}

// String returns the layout as a site file writes it.
func (l Layout) String() string {
	if r, _ := l.Level.row(); r.code {
		return fmt.Sprintf("%d+%d", l.Data, l.Parity)
	}
	return l.Level.String()
}
