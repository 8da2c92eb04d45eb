package array

import "fmt"

// Level is a way of laying data over drives, by the trade's name. The levels
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
	TripleParity
	RAID50
	RAID60
	Erasure // k data and m parity drives
)

var levelNames = [...]string{"JBOD", "RAID 0", "RAID 1", "RAID 10", "RAID 5", "RAID 6", "triple parity", "RAID 50", "RAID 60", "erasure code"}

// Levels lists the levels with a name of their own, in the order of the page
// that explains them; an erasure code is written k+m.
func Levels() []Level {
	return []Level{JBOD, RAID0, RAID1, RAID10, RAID5, RAID6, RAID50, RAID60, TripleParity}
}

// String is the level as the trade writes it.
func (l Level) String() string { return levelNames[l] }

// Layout is a level, with its numbers where the name does not give them.
type Layout struct {
	Level        Level
	Data, Parity int // of an erasure code: k and m
}

// String is the layout as a site file writes it.
func (l Layout) String() string {
	if l.Level == Erasure {
		return fmt.Sprintf("%d+%d", l.Data, l.Parity)
	}
	return l.Level.String()
}

// Shape is what a layout makes of a number of drives. A group is what
// tolerates failures; a set is the groups that are lost together.
type Shape struct {
	Sets          int
	GroupsPerSet  int
	DrivesInGroup int
	Tolerance     int // failures that a group survives
	DataInGroup   int // drives' worth of footage in a group
}

// Groups is the number of groups in all sets.
func (s Shape) Groups() int { return s.Sets * s.GroupsPerSet }

// UsableDrives is the number of drives' worth of footage in the whole choice.
func (s Shape) UsableDrives() int { return s.Groups() * s.DataInGroup }

// Rebuilds says whether a failed drive is rebuilt at all: where nothing is
// tolerated there is nothing to rebuild from.
func (s Shape) Rebuilds() bool { return s.Tolerance > 0 }

// MaxTolerance bounds the failures that a group may tolerate: beyond it no
// sample says anything.
const MaxTolerance = 16

// Shape divides drives over groups. The error says what the layout needs.
func (l Layout) Shape(drives, groups int) (Shape, error) {
	if drives < 1 || groups < 1 {
		return Shape{}, fmt.Errorf("%s needs at least 1 drive and 1 group", l)
	}
	if drives%groups != 0 {
		return Shape{}, fmt.Errorf("%d drives do not divide into %d groups", drives, groups)
	}
	n := drives / groups
	own := func(least, tolerance, data int) (Shape, error) { // each group a set of its own
		if n < least {
			return Shape{}, fmt.Errorf("%s needs at least %d drives in a group, and %d in %d is %d", l, least, drives, groups, n)
		}
		if tolerance > MaxTolerance {
			return Shape{}, fmt.Errorf("a group of %d drives would tolerate %d failures; at most %d can be computed", n, tolerance, MaxTolerance)
		}
		return Shape{groups, 1, n, tolerance, data}, nil
	}
	striped := func(least, tolerance int) (Shape, error) { // one set over all groups
		if groups < 2 {
			return Shape{}, fmt.Errorf("%s stripes over at least 2 groups, found groups = %d", l, groups)
		}
		s, err := own(least, tolerance, n-tolerance)
		s.Sets, s.GroupsPerSet = 1, groups
		return s, err
	}
	switch l.Level {
	case JBOD:
		return Shape{drives, 1, 1, 0, 1}, nil
	case RAID0:
		return own(1, 0, n)
	case RAID1:
		return own(2, n-1, 1)
	case RAID10:
		if n%2 != 0 {
			return Shape{}, fmt.Errorf("RAID 10 mirrors pairs: %d drives in a group is odd", n)
		}
		return Shape{groups, n / 2, 2, 1, 1}, nil
	case RAID5:
		return own(3, 1, n-1)
	case RAID6:
		return own(4, 2, n-2)
	case TripleParity:
		return own(4, 3, n-3)
	case RAID50:
		return striped(3, 1)
	case RAID60:
		return striped(4, 2)
	case Erasure:
		if n != l.Data+l.Parity {
			return Shape{}, fmt.Errorf("%s is %d drives a group, and %d in %d is %d", l, l.Data+l.Parity, drives, groups, n)
		}
		return own(l.Data+l.Parity, l.Parity, l.Data)
	}
	return Shape{}, fmt.Errorf("unknown level %d", int(l.Level))
}
