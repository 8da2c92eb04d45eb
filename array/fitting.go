package array

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// MaxDrives is the most drives that a choice has.
const MaxDrives = 1000

// A Width says how many drives a group is made of.
type Width struct{ Least, Most int }

// Width returns how wide groups are by custom, which is common practice, without a
// source; [Site.Width] knows what a site says of it. Those of JBOD, whose drives stand
// alone, and of an erasure code, whose name says it, are no choice.
func (l Layout) Width() Width {
	r, _ := l.Level.row()
	if r.code {
		return Width{l.Data + l.Parity, l.Data + l.Parity}
	}
	return r.width
}

// WidthLevels lists the levels whose groups may be of more than one width.
func WidthLevels() []Level {
	var all []Level
	for _, l := range Levels() {
		if r, _ := l.row(); !r.mirror && r.group != singles {
			all = append(all, l)
		}
	}
	return all
}

// WidthWords returns in words how wide groups are at the most by custom at the site, from
// the narrowest upward: "8 drives with single parity, 12 with double, 16 with triple
// parity and in RAID 10".
func (s Site) WidthWords() string {
	type width struct {
		row
		most int
	}
	var named []width
	for i, r := range levels {
		if r.widthWords != "" {
			named = append(named, width{r, s.Width(Layout{Level: Level(i)}).Most})
		}
	}
	slices.SortStableFunc(named, func(a, b width) int {
		return cmp.Or(cmp.Compare(a.most, b.most), cmp.Compare(b.parity, a.parity))
	})
	text := ""
	for i, w := range named {
		switch {
		case i == 0:
			text = unit.Count(w.most, "drive", "drives")
		case w.most == named[i-1].most:
			text += " and"
		default:
			text += fmt.Sprintf(", %d", w.most)
		}
		text += " " + w.widthWords
	}
	return text
}

// UnaskedWords returns in words which levels are suggested only where a choice names them, and
// why, in a sentence each.
func UnaskedWords() string {
	var all []string
	for _, l := range Levels() {
		if r, _ := l.row(); r.unasked != "" {
			all = append(all, fmt.Sprintf("%s is left out unless a choice names it: %s.", r.name, r.unasked))
		}
	}
	return strings.Join(all, " ")
}

// Fewest lays the layout of c over as few of its drives as hold so many bytes,
// at most [MaxDrives], in groups of such a width; of those with as few drives,
// over the fewest groups. Layouts that stripe over their groups have two groups or
// more. It gives c with these numbers, or false where no number of drives will do.
// Nothing is asked of the bays of the recorder, nor of hot spares.
func (c Choice) Fewest(bytes float64, width Width) (Choice, bool) {
	r, known := c.Layout.Level.row()
	need := drivesWorth(bytes, c.Drive.Capacity)
	if !known || need > MaxDrives {
		return Choice{}, false
	}
	least, most := r.groups()
	best, groups := MaxDrives+1, 0
	for g := least; g <= most && g*width.Least < best && need <= best; g++ {
		if n, ok := c.Layout.inGroup((need+g-1)/g, width); ok && g*n < best {
			best, groups = g*n, g
		}
	}
	if groups == 0 {
		return Choice{}, false
	}
	c.Drives, c.Groups = best, groups
	return c, true
}

// groups returns the least and the greatest number of groups.
func (r row) groups() (least, most int) {
	least, most = 1, MaxDrives
	if r.group == singles {
		most = 1 // each drive is a group by itself, however many there are
	}
	if r.lost == allOfIt {
		least = 2
	}
	return least, most
}

// inGroup returns the least number of drives a group that holds so many drives'
// worth of footage; false where no group does.
func (l Layout) inGroup(data int, w Width) (int, bool) {
	r, _ := l.Level.row()
	n := data
	switch {
	case r.mirror:
		if data > 1 {
			return 0, false
		}
	case r.group == pairs:
		n = 2 * data
	default:
		n += l.tolerance(n)
	}
	n = max(n, w.Least)
	return n, n <= w.Most
}

// drivesWorth returns the least whole number of drives that hold so many bytes, at
// most MaxDrives+1.
func drivesWorth(bytes, capacity float64) int {
	if !(bytes/capacity <= MaxDrives) {
		return MaxDrives + 1
	}
	n := max(int(math.Ceil(bytes/capacity)), 1)
	for float64(n)*capacity < bytes { // what the division rounded away
		n++
	}
	for n > 1 && float64(n-1)*capacity >= bytes {
		n--
	}
	return n
}

// LayoutsToFit lists the layouts that are worth fitting to a demand: those that are
// suggested unasked, and those that a choice names.
func LayoutsToFit(named []Choice) []Layout {
	var all, striped []Layout
	for i, r := range levels {
		switch l := (Layout{Level: Level(i)}); {
		case r.unasked != "":
		case r.lost == allOfIt: // last, since they take two groups or more
			striped = append(striped, l)
		default:
			all = append(all, l)
		}
	}
	all = append(all, striped...)
	for _, c := range named {
		if !slices.Contains(all, c.Layout) {
			all = append(all, c.Layout)
		}
	}
	return all
}

// A Change is a demand that is a little larger.
type Change struct {
	Label  string
	Needed float64 // bytes, with the site's room to grow
}

// Changes lists what a site could ask for next: 1 more day of retention for every
// group of cameras, 10 % more bit rate, 1 more camera of each group in turn.
func (s Site) Changes() []Change {
	needed, day := s.Demand().Needed, 0.0
	for _, c := range s.Cameras {
		day += c.WriteRate() * 86400
	}
	grown := 1 + s.Growth
	all := []Change{{"1 more day of all", grown * (needed + day)}, {"10 % more bit rate", grown * (1.1 * needed)}}
	for _, c := range s.Cameras {
		all = append(all, Change{"1 more camera of " + c.Label, grown * (needed + c.Needed()/float64(c.Count))})
	}
	return all
}

// PossibleRetentionByGroup returns how far back each camera group could reach, in hours,
// where the drives hold usable bytes: with room to spare every retention raised
// in proportion, without it as [Site.RetentionByGroup] says.
func (s Site) PossibleRetentionByGroup(usable float64) []float64 {
	reached := s.RetentionByGroup(usable)
	if needed := s.Demand().Needed; usable >= needed {
		for i := range reached {
			reached[i] *= usable / needed
		}
	}
	return reached
}

// BTUPerHour returns a power in BTU/h, as cooling is often given: 1 W is
// 3.412 142 BTU/h (1 BTU is 1 055.056 J, the International Table value). All the
// power that drives and recorder take becomes heat in their room.
func BTUPerHour(watts float64) float64 { return watts * 3600 / 1055.05585262 }

// FreeLink returns the share of the recorder's network link that is left when every
// camera records at once; negative where the link is too slow. NaN where the
// link is not given. Only what the streams themselves take is counted: packet
// headers, live viewing and export come on top.
func (s Site) FreeLink(r *Recorder) float64 {
	if r == nil || r.Link == 0 {
		return math.NaN()
	}
	return 1 - s.Demand().PeakRate*8/r.Link
}

// EnoughFree is the share of a link that is better left free for packet
// headers, the bursts of streams, live viewing and export (common practice, no
// source).
const EnoughFree = 0.3
