package array

import (
	"math"
	"slices"
)

// MaxDrives is the most drives that a choice has.
const MaxDrives = 1000

// Width says how wide groups of a layout are made, in drives. The limits are
// common practice, without a source: wider groups rebuild for longer beside
// more drives that may fail.
type Width struct{ Least, Most int }

// Width is the limits that [Choice.Fewest] keeps to. Most is 8 drives a group for
// single parity, 12 for double and 16 for triple parity and for RAID 10, 2 for a
// mirror. Those of JBOD, whose drives stand alone, and of an erasure code, whose
// name says it, are no choice.
func (l Layout) Width() Width {
	switch l.Level {
	case RAID0:
		return Width{2, 8}
	case RAID1:
		return Width{2, 2}
	case RAID10:
		return Width{4, 16}
	case RAID5, RAID50:
		return Width{3, 8}
	case RAID6, RAID60:
		return Width{4, 12}
	case TripleParity:
		return Width{5, 16}
	case Erasure:
		return Width{l.Data + l.Parity, l.Data + l.Parity}
	}
	return Width{1, MaxDrives}
}

// Fewest lays the layout of c over as few of its drives as hold so many bytes,
// at most [MaxDrives], in groups of its [Width]; of those with as few drives,
// over the fewest groups. RAID 50 and 60 have two groups or more. It gives c with
// these numbers, or false where no number of drives will do. Nothing is asked of
// the bays of the recorder, nor of hot spares.
func (c Choice) Fewest(bytes float64) (Choice, bool) {
	need := drivesWorth(bytes, c.Drive.Capacity)
	if need > MaxDrives {
		return Choice{}, false
	}
	level, width := c.Layout.Level, c.Layout.Width()
	least, most := 1, MaxDrives
	switch level {
	case JBOD:
		most = 1 // each drive is a group by itself, however many there are
	case RAID50, RAID60:
		least = 2
	}
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

// inGroup is the least number of drives a group that holds so many drives'
// worth of footage; false where no group does, or the level is not known.
func (l Layout) inGroup(data int, w Width) (int, bool) {
	n := data
	switch l.Level {
	case JBOD, RAID0:
	case RAID1:
		n = w.Least
		if data > 1 {
			return 0, false
		}
	case RAID10:
		n = 2 * data
	case RAID5, RAID50:
		n = data + 1
	case RAID6, RAID60:
		n = data + 2
	case TripleParity:
		n = data + 3
	case Erasure:
		n = data + l.Parity
	default:
		return 0, false
	}
	n = max(n, w.Least)
	return n, n <= w.Most
}

// drivesWorth is the least whole number of drives that hold so many bytes, at
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

// LayoutsToFit lists the layouts that are worth fitting to a demand: those with
// a name, and the erasure codes that a choice names. RAID 0 is there only where a
// choice names it: a JBOD of as many drives holds as much, and loses less.
func LayoutsToFit(named []Choice) []Layout {
	all := []Layout{{Level: JBOD}, {Level: RAID1}, {Level: RAID10}, {Level: RAID5}, {Level: RAID6}, {Level: TripleParity}, {Level: RAID50}, {Level: RAID60}}
	for _, c := range named {
		if !slices.Contains(all, c.Layout) {
			all = append(all, c.Layout)
		}
	}
	return all
}

// Change is a demand that is a little larger.
type Change struct {
	Label  string
	Needed float64 // bytes
}

// Changes is what a site could ask for next: 1 more day of retention for every
// group of cameras, 10 % more bit rate, 1 more camera of each group in turn.
func (s Site) Changes() []Change {
	needed, day := s.Demand().Needed, 0.0
	for _, c := range s.Cameras {
		day += c.WriteRate() * 86400
	}
	all := []Change{{"1 more day of all", needed + day}, {"10 % more bit rate", 1.1 * needed}}
	for _, c := range s.Cameras {
		all = append(all, Change{"1 more camera of " + c.Label, needed + c.Needed()/float64(c.Count)})
	}
	return all
}

// Fitting is the fewest drives of a model that hold a site's demand in a
// layout. Numbers of drives that do not exist are 0.
type Fitting struct {
	Drive  Drive
	Layout Layout
	Choice Choice // with Drives and Groups; without a label
	Sizing Sizing
	Found  bool // false: not even MaxDrives hold it
	Fits   bool // has a bay for every drive
	// Low and High are the drives that the ends of an estimated demand take.
	Low, High int
}

// Fit finds the fewest drives of every model in every layout, models in the
// order given, layouts within. care and recorder are the site's. bays of 0 is
// no limit.
func (s Site) Fit(models []Drive, layouts []Layout, care Care, recorder *Recorder, bays int) []Fitting {
	needed, lowest, highest := s.Demand().Needed, s.Lowest().Demand().Needed, s.Highest().Demand().Needed
	var all []Fitting
	for _, d := range models {
		for _, l := range layouts {
			f := Fitting{Drive: d, Layout: l}
			asked := Choice{Drive: d, Layout: l, Care: care, Recorder: recorder}
			if c, ok := asked.Fewest(needed); ok {
				if z, err := s.Size(c); err == nil {
					f.Choice, f.Sizing, f.Found = c, z, true
					f.Fits = bays == 0 || c.Drives <= bays
				}
			}
			low, _ := asked.Fewest(lowest)
			high, _ := asked.Fewest(highest)
			f.Low, f.High = low.Drives, high.Drives
			all = append(all, f)
		}
	}
	return all
}

// Cheapest picks one fitting of each layout, in the order in which layouts come:
// that of the least purchase price; of the fewest drives where prices are alike
// or not known. What is not found, or has no bays, is left out.
func Cheapest(all []Fitting) []Fitting {
	var order []Layout
	best := map[Layout]Fitting{}
	for _, f := range all {
		if !slices.Contains(order, f.Layout) {
			order = append(order, f.Layout)
		}
		if was := best[f.Layout]; f.Found && f.Fits && (!was.Found || f.cheaper(was)) {
			best[f.Layout] = f
		}
	}
	var picked []Fitting
	for _, l := range order {
		if f := best[l]; f.Found {
			picked = append(picked, f)
		}
	}
	return picked
}

func (f Fitting) cheaper(than Fitting) bool {
	a, b := f.Sizing.Purchase, than.Sizing.Purchase
	switch {
	case math.IsNaN(a) != math.IsNaN(b):
		return math.IsNaN(b)
	case a != b && !math.IsNaN(a):
		return a < b
	}
	return f.Choice.Drives < than.Choice.Drives
}

// ReachedRetention is how far back each camera group could reach, in hours,
// where the drives hold usable bytes: with room to spare every retention raised
// in proportion, without it as [Site.HeldRetention] says.
func (s Site) ReachedRetention(usable float64) []float64 {
	reached := s.HeldRetention(usable)
	if needed := s.Demand().Needed; usable >= needed {
		for i := range reached {
			reached[i] *= usable / needed
		}
	}
	return reached
}

// BTUPerHour is a power in BTU/h, as cooling is often given: 1 W is
// 3.412 142 BTU/h (1 BTU is 1 055.056 J, the International Table value). All the
// power that drives and recorder take becomes heat in their room.
func BTUPerHour(watts float64) float64 { return watts * 3600 / 1055.05585262 }

// FreeLink is the share of the recorder's network link that is left when every
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
