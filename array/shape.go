package array

import (
	"fmt"

	"arrayodds/array/unit"
)

// A Shape is what a layout makes of a number of drives. A group is what
// tolerates failures; a set is the groups that are lost together.
type Shape struct {
	Sets          int
	GroupsPerSet  int
	DrivesInGroup int
	Tolerance     int // failures that a group survives
	DataInGroup   int // drives' worth of footage in a group
}

// Groups returns the number of groups in all sets.
func (s Shape) Groups() int { return s.Sets * s.GroupsPerSet }

// UsableDrives returns the number of drives' worth of footage in the whole choice.
func (s Shape) UsableDrives() int { return s.Groups() * s.DataInGroup }

// Rebuilds reports whether a failed drive is rebuilt at all: where nothing is
// tolerated there is nothing to rebuild from.
func (s Shape) Rebuilds() bool { return s.Tolerance > 0 }

// MaxTolerance bounds the failures that a group may tolerate: beyond it no
// sample says anything.
const MaxTolerance = 16

// A Misfit is a number of drives or groups that a layout cannot be laid over.
type Misfit struct {
	Key   string // the number at fault: "drives" or "groups"
	Found string
	Right string // what would be right
}

// Error returns the sentence that a user reads.
func (m *Misfit) Error() string { return "found " + m.Found + "; right would be " + m.Right }

// Shape divides drives, hot spares not counted, over groups. The error is a
// [Misfit], or says that the level is not known.
func (l Layout) Shape(drives, groups int) (Shape, error) {
	r, known := l.Level.row()
	switch {
	case !known:
		return Shape{}, fmt.Errorf("unknown level %d", int(l.Level))
	case drives < 1 || groups < 1:
		return Shape{}, &Misfit{"drives", fmt.Sprintf("%d drives in %d groups", drives, groups), "at least 1 drive and 1 group"}
	case drives%groups != 0:
		return Shape{}, uneven(drives, groups)
	}
	n := drives / groups
	switch {
	case r.code && n != l.Data+l.Parity:
		want := l.Data + l.Parity
		return Shape{}, &Misfit{"drives", fmt.Sprintf("%d drives in %s, %d a group", drives, unit.Count(groups, "group", "groups"), n), fmt.Sprintf("%d, since %s is %d drives a group", want*groups, l, want)}
	case r.lost == allOfIt && groups < 2:
		return Shape{}, &Misfit{"groups", unit.Count(groups, "group", "groups"), fmt.Sprintf("at least 2, since %s stripes over its groups", l)}
	case r.group == pairs && n%2 != 0:
		return Shape{}, &Misfit{"drives", fmt.Sprintf("%d drives a group, which is odd", n), fmt.Sprintf("an even number, since %s mirrors pairs", l)}
	case n < r.least:
		return Shape{}, &Misfit{"drives", unit.Count(n, "drive", "drives") + " a group", fmt.Sprintf("at least %d a group for %s, %d in all", r.least, l, r.least*groups)}
	}
	s := Shape{DrivesInGroup: r.drivesInGroup(n), GroupsPerSet: 1}
	s.Tolerance = l.tolerance(s.DrivesInGroup)
	if s.Tolerance > MaxTolerance {
		return Shape{}, &Misfit{"drives", fmt.Sprintf("groups that survive %d failures", s.Tolerance), fmt.Sprintf("at most %d", MaxTolerance)}
	}
	s.DataInGroup = s.DrivesInGroup - s.Tolerance
	switch r.lost {
	case itsGroup:
		s.GroupsPerSet = n / s.DrivesInGroup
	case allOfIt:
		s.GroupsPerSet = drives / s.DrivesInGroup
	}
	s.Sets = drives / s.DrivesInGroup / s.GroupsPerSet
	return s, nil
}

// drivesInGroup returns the drives of what tolerates failures, where the choice has
// groups of n.
func (r row) drivesInGroup(n int) int {
	switch r.group {
	case singles:
		return 1
	case pairs:
		return 2
	}
	return n
}

// tolerance returns the failures that a group of so many drives survives.
func (l Layout) tolerance(drives int) int {
	r, _ := l.Level.row()
	switch {
	case r.mirror:
		return drives - 1
	case r.code:
		return l.Parity
	}
	return r.parity
}

// uneven says which numbers of drives would divide.
func uneven(drives, groups int) *Misfit {
	below := drives / groups * groups
	right := fmt.Sprint(below + groups)
	if below > 0 {
		right = fmt.Sprintf("%d or %d", below, below+groups)
	}
	return &Misfit{"drives", fmt.Sprintf("%d drives in %d groups, which do not divide", drives, groups), right}
}
