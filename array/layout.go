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

// Misfit is a number of drives or groups that a layout cannot be laid over.
type Misfit struct {
	Key   string // the number at fault: "drives" or "groups"
	Found string
	Right string // what would be right
}

// Error is the sentence that a user reads.
func (m *Misfit) Error() string { return "found " + m.Found + "; right would be " + m.Right }

// Shape divides drives over groups. The error is a [Misfit].
//
// The least numbers of drives a group are 2 for a mirror, 3 for single parity
// and 4 for double and triple parity.
func (l Layout) Shape(drives, groups int) (Shape, error) {
	if drives < 1 || groups < 1 {
		return Shape{}, &Misfit{"drives", fmt.Sprintf("%d drives in %d groups", drives, groups), "at least 1 drive and 1 group"}
	}
	if drives%groups != 0 {
		return Shape{}, l.uneven(drives, groups)
	}
	n := drives / groups
	switch l.Level {
	case JBOD: // each drive stands for itself
		return Shape{Sets: drives, GroupsPerSet: 1, DrivesInGroup: 1, Tolerance: 0, DataInGroup: 1}, nil
	case RAID0:
		return l.apart(groups, n, 1, 0)
	case RAID1: // n copies of one drive
		return l.apart(groups, n, 2, n-1)
	case RAID5:
		return l.apart(groups, n, 3, 1)
	case RAID6:
		return l.apart(groups, n, 4, 2)
	case TripleParity:
		return l.apart(groups, n, 4, 3)
	case RAID10: // pairs, all pairs of a group in one set
		if n%2 != 0 {
			return Shape{}, &Misfit{"drives", fmt.Sprintf("%d drives a group, which is odd", n), "an even number, since RAID 10 mirrors pairs"}
		}
		return Shape{Sets: groups, GroupsPerSet: n / 2, DrivesInGroup: 2, Tolerance: 1, DataInGroup: 1}, nil
	case RAID50:
		return l.striped(groups, n, 3, 1)
	case RAID60:
		return l.striped(groups, n, 4, 2)
	case Erasure:
		if want := l.Data + l.Parity; n != want {
			return Shape{}, &Misfit{"drives", fmt.Sprintf("%d drives in %s, %d a group", drives, some(groups, "group"), n), fmt.Sprintf("%d, since %s is %d drives a group", want*groups, l, want)}
		}
		return l.apart(groups, n, l.Data+l.Parity, l.Parity)
	}
	return Shape{}, fmt.Errorf("unknown level %d", int(l.Level))
}

// apart is a shape in which each group is lost by itself.
func (l Layout) apart(groups, n, least, tolerance int) (Shape, error) {
	if n < least {
		return Shape{}, &Misfit{"drives", some(n, "drive") + " a group", fmt.Sprintf("at least %d a group for %s, %d in all", least, l, least*groups)}
	}
	if tolerance > MaxTolerance {
		return Shape{}, &Misfit{"drives", fmt.Sprintf("groups that survive %d failures", tolerance), fmt.Sprintf("at most %d", MaxTolerance)}
	}
	return Shape{Sets: groups, GroupsPerSet: 1, DrivesInGroup: n, Tolerance: tolerance, DataInGroup: n - tolerance}, nil
}

// striped is a shape in which one set goes over all groups.
func (l Layout) striped(groups, n, least, tolerance int) (Shape, error) {
	if groups < 2 {
		return Shape{}, &Misfit{"groups", some(groups, "group"), fmt.Sprintf("at least 2, since %s stripes over its groups", l)}
	}
	s, err := l.apart(groups, n, least, tolerance)
	if err == nil {
		s.Sets, s.GroupsPerSet = 1, groups
	}
	return s, err
}

// uneven says which numbers of drives would divide.
func (l Layout) uneven(drives, groups int) *Misfit {
	below := drives / groups * groups
	right := fmt.Sprint(below + groups)
	if below > 0 {
		right = fmt.Sprintf("%d or %d", below, below+groups)
	}
	return &Misfit{"drives", fmt.Sprintf("%d drives in %d groups, which do not divide", drives, groups), right}
}

func some(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}
