package array

import (
	"cmp"
	"math"
	"slices"
)

// A Fitting is drives of a model that hold a site's demand in a layout. Numbers of
// drives that do not exist are 0.
type Fitting struct {
	Drive  Drive
	Layout Layout
	Choice Choice // with Drives, Groups and HotSpares; without a label
	Sizing Sizing
	Found  bool // false: not even MaxDrives hold it
	Fits   bool // has a bay for every drive, hot spares among them
	// Customary reports whether its groups are as wide as is customary at the site,
	// and no wider.
	Customary bool
	// Low and High are the drives that the ends of an estimated demand take, of what
	// [Site.Fit] finds.
	Low, High int
}

// Width returns how wide groups of a layout are by custom at the site.
func (s Site) Width(l Layout) Width {
	w := l.Width()
	if most := s.Widths[l.Level]; most > 0 {
		w.Most = max(most, w.Least)
	}
	return w
}

// widest returns the widths that groups of a layout may have at all, of those that are
// not narrower than is customary. A mirror's copies and an erasure code have no width
// that could be chosen.
func (l Layout) widest() Width {
	r, _ := l.Level.row()
	w := l.Width()
	if !r.code && !r.mirror {
		w.Most = MaxDrives
	}
	return w
}

// Fit finds the fewest drives of every model in every layout, models in the order
// given, layouts within, with so many hot spares beside them. Where groups that are
// wider than is customary take fewer drives, that follows as a fitting of its own: the
// fewest drives where what is customary fits, else the narrowest groups that do. care and
// recorder are the site's. bays of 0 is no limit.
func (s Site) Fit(models []Drive, layouts []Layout, care Care, recorder *Recorder, bays, spares int) []Fitting {
	var all []Fitting
	for _, d := range models {
		for _, l := range layouts {
			asked := Choice{Drive: d, Layout: l, HotSpares: spares, Care: care, Recorder: recorder}
			customary := s.fewest(asked, s.Width(l), bays)
			wide := l.widest()
			if bays > 0 && !customary.Fits {
				wide.Most = l.narrowest(drivesWorth(s.Demand().Room, d.Capacity), min(MaxDrives, bays-spares), wide.Most)
			}
			wider := s.fewest(asked, wide, bays)
			if all = append(all, customary); wider.Found && (!customary.Found || wider.Choice.Drives < customary.Choice.Drives) {
				all = append(all, wider)
			}
		}
	}
	return all
}

// fewest finds the fewest drives in groups of such a width.
func (s Site) fewest(asked Choice, width Width, bays int) Fitting {
	f := Fitting{Drive: asked.Drive, Layout: asked.Layout, Customary: true}
	if c, ok := asked.Fewest(s.Demand().Room, width); ok {
		f = s.fitting(c, bays)
	}
	low, _ := asked.Fewest(s.Lowest().Demand().Room, width)
	high, _ := asked.Fewest(s.Highest().Demand().Room, width)
	f.Low, f.High = low.Drives, high.Drives
	return f
}

// fitting sizes a choice that a layout can be laid over.
func (s Site) fitting(c Choice, bays int) Fitting {
	f := Fitting{Drive: c.Drive, Layout: c.Layout, Customary: s.Customary(c)}
	if z, err := s.Size(c); err == nil {
		f.Choice, f.Sizing, f.Found = c, z, true
		f.Fits = bays == 0 || z.BaysUsed <= bays
	}
	return f
}

// Customary reports whether the groups of a choice are no wider than is customary at
// the site.
func (s Site) Customary(c Choice) bool { return c.Drives <= c.Groups*s.Width(c.Layout).Most }

// MoreOf returns the fewest drives that hold so many bytes as c would, as [Choice.Fewest]
// has it: in groups as wide as is customary or, where those of c are wider, of any width.
func (s Site) MoreOf(c Choice, bytes float64) (Choice, bool) {
	if s.Customary(c) {
		return c.Fewest(bytes, s.Width(c.Layout))
	}
	return c.Fewest(bytes, c.Layout.widest())
}

// Designs lists what could be built of models in layouts, with so many hot spares, in
// at most so many bays, 0 being no limit, that holds the demand of the site: of every
// number of groups the narrowest that holds it, and of every width the fewest groups.
// What is left out is more of the same. Groups may be wider than is customary, which
// [Fitting].Customary tells. Models come in the order given, layouts within, and then
// the fewest drives first. care and recorder are the site's.
func (s Site) Designs(models []Drive, layouts []Layout, care Care, recorder *Recorder, bays, spares int) []Fitting {
	limit := MaxDrives
	if bays > 0 {
		limit = min(limit, bays-spares)
	}
	var all []Fitting
	for _, d := range models {
		need := drivesWorth(s.Demand().Room, d.Capacity)
		for _, l := range layouts {
			var own []Fitting
			for _, c := range l.designs(need, limit) {
				c.Drive, c.HotSpares, c.Care, c.Recorder = d, spares, care, recorder
				if f := s.fitting(c, bays); f.Found {
					own = append(own, f)
				}
			}
			slices.SortStableFunc(own, func(a, b Fitting) int { return cmp.Compare(a.Choice.Drives, b.Choice.Drives) })
			all = append(all, own...)
		}
	}
	return all
}

// narrowest returns how wide groups are at the least that hold so many drives' worth of
// footage in at most so many drives; otherwise where none do.
func (l Layout) narrowest(need, limit, otherwise int) int {
	n := 0
	for _, c := range l.designs(need, limit) {
		if each := c.Drives / c.Groups; n == 0 || each < n {
			n = each
		}
	}
	return cmp.Or(n, otherwise)
}

// designs lists the numbers of drives and groups, of at most so many drives, that hold
// so many drives' worth of footage: those that [Site.Designs] says.
func (l Layout) designs(need, limit int) []Choice {
	r, known := l.Level.row()
	if !known || need > limit {
		return nil
	}
	var all []Choice
	least, most := r.groups()
	width := l.widest()
	for g, before := least, 0; g <= most && g*width.Least <= limit; g++ {
		n, ok := l.inGroup((need+g-1)/g, Width{width.Least, min(width.Most, limit/g)})
		if !ok || n == before {
			continue
		}
		before = n
		all = append(all, Choice{Layout: l, Drives: g * n, Groups: g})
	}
	return all
}

// Cheapest picks one fitting of each layout, in the order in which layouts come:
// that of the least purchase price; of the fewest drives where prices are alike
// or not known. One that is wider than is customary is picked where no other fits.
// What is not found, or has no bays, is left out.
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
	case f.Customary != than.Customary:
		return f.Customary
	case math.IsNaN(a) != math.IsNaN(b):
		return math.IsNaN(b)
	case a != b && !math.IsNaN(a):
		return a < b
	}
	return f.Choice.Drives < than.Choice.Drives
}
