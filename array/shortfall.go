package array

import "math"

// A Shortfall is the most that bays hold in a layout where that is too little, and what
// would be enough.
type Shortfall struct {
	Layout    Layout
	Choice    Choice // of the largest drives; without a label
	Sizing    Sizing // which says how far back it reaches
	Customary bool   // as [Fitting] has it

	// Each of these would be enough by itself, and is the least that would.
	Capacity float64 // bytes of a drive, in as many bays
	Bays     int     // for drives of the models that there are and hot spares; 0: more than MaxDrives drives
	// BitRate is the share of every camera's bit rate that would fit: the greatest.
	BitRate float64
}

// Shortfalls lists, of each layout that no drives of the models fit in so many bays
// beside so many hot spares, what the bays hold at the most and what would be enough.
// Groups may be wider than is customary. A layout for which there are too few bays
// whatever the drives hold has no Drives in its Choice. bays of 0 is no limit but
// [MaxDrives].
func (s Site) Shortfalls(models []Drive, layouts []Layout, care Care, recorder *Recorder, bays, spares int) []Shortfall {
	if len(models) == 0 {
		return nil
	}
	limit := MaxDrives
	if bays > 0 {
		limit = min(limit, bays-spares)
	}
	largest := models[0]
	for _, d := range models[1:] {
		if d.Capacity > largest.Capacity || d.Capacity == largest.Capacity && d.Price < largest.Price {
			largest = d
		}
	}
	room := s.Demand().Room
	var all []Shortfall
	for _, l := range layouts {
		c, data := l.mostData(limit)
		if float64(data)*largest.Capacity >= room {
			continue
		}
		short := Shortfall{Layout: l, Capacity: math.NaN()}
		c.Drive, c.HotSpares, c.Care, c.Recorder = largest, spares, care, recorder
		if fewest, ok := c.Fewest(room, l.widest()); ok {
			short.Bays = fewest.Drives + spares
		}
		if f := s.fitting(c, bays); f.Found {
			short.Choice, short.Sizing, short.Customary = f.Choice, f.Sizing, f.Customary
			short.Capacity, short.BitRate = room/float64(data), f.Sizing.Usable/room
		}
		all = append(all, short)
	}
	return all
}

// mostData lays a layout over at most so many drives so that they hold the most, and of
// those that hold as much over the fewest drives in the most groups. data is how many
// drives' worth that is; 0 where nothing can be laid over so few.
func (l Layout) mostData(limit int) (c Choice, data int) {
	r, _ := l.Level.row()
	least, most := r.groups()
	width := l.widest()
	c.Layout = l
	for g := least; g <= most && g*width.Least <= limit; g++ {
		n := min(width.Most, limit/g)
		if r.group == pairs {
			n -= n % 2
		}
		shape, err := l.Shape(g*n, g)
		if err != nil {
			continue
		}
		if held := shape.UsableDrives(); held > data || held == data && g*n <= c.Drives {
			c.Drives, c.Groups, data = g*n, g, held
		}
	}
	return c, data
}
