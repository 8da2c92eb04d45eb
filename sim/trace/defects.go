package trace

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"arrayodds/sim/history"
	"arrayodds/sim/stream"
)

// drawDefects draws the latent defects of a course, and returns them with the
// events at which they are met under skip. Under stop it counts those that lost a
// set.
func (c *course) drawDefects(rnd *stream.Stream) (defects []Defect, met []extra, err error) {
	if c.sys.LatentRate == 0 {
		return nil, nil, nil
	}
	hours := 0.0
	for _, r := range c.runs {
		hours += r.to - r.from
	}
	if hours*c.sys.LatentRate > 2*history.MaxEvents {
		return nil, nil, errTooLong
	}
	for _, r := range c.runs {
		defects = c.onDrive(rnd, r, defects)
	}
	for g := range c.tests {
		for i := range c.tests[g] {
			t := &c.tests[g][i]
			if t.loses {
				if defects, err = c.thatLost(rnd, t, defects); err != nil {
					return nil, nil, err
				}
				c.events[t.event].Count = t.met
			} else if t.met > 0 {
				e := c.events[t.event]
				met = append(met, extra{t.event, history.Event{
					At: t.at, Kind: history.MeetsDefects, Group: g, Set: e.Set, DownInGroup: e.DownInGroup, Count: t.met,
				}})
			}
		}
	}
	if len(defects) > history.MaxEvents {
		return nil, nil, errTooLong
	}
	slices.SortStableFunc(defects, func(a, b Defect) int { return cmp.Compare(a.From, b.From) })
	return defects, met, nil
}

// onDrive adds the defects of one drive, but for those that were present when a
// set was lost to them.
func (c *course) onDrive(rnd *stream.Stream, r run, defects []Defect) []Defect {
	g := r.bay / c.sys.Drives
	for born := r.from; ; {
		born += rnd.Exp() / c.sys.LatentRate
		if born >= r.to {
			return defects
		}
		d := Defect{Bay: r.bay, From: born, To: r.to}
		dwells := math.Inf(1)
		if s := c.sys.Scrub; s != nil {
			dwells = born + s.Draw(rnd)
		}
		clears := c.clears[g]
		if i := sort.SearchFloat64s(clears, born); i < len(clears) {
			dwells = math.Min(dwells, clears[i])
		}
		d.To = math.Min(d.To, dwells)
		if t := c.meeting(g, born, dwells, r); t != nil {
			if c.sys.Stop {
				continue // none was met here; those that were are drawn by thatLost
			}
			d.To, d.Met = t.at, true
			t.met++
		}
		defects = append(defects, d)
	}
}

// meeting returns the test at which a defect is present, that is born then and there
// until to unless its drive ends first; nil for none. There is at most one: a rebuild
// finishes between two.
func (c *course) meeting(g int, born, to float64, r run) *test {
	tests := c.tests[g]
	i := sort.Search(len(tests), func(i int) bool { return tests[i].at >= born })
	if i == len(tests) {
		return nil
	}
	t := &tests[i]
	if t.at < to && (t.at < r.to || t.at == r.to && r.lost) {
		return t
	}
	return nil
}

// thatLost adds the defects that lost a set.
func (c *course) thatLost(rnd *stream.Stream, t *test, defects []Defect) ([]Defect, error) {
	since := t.at - t.from
	mean := float64(len(t.bays)) * c.sys.Defects(since)
	if mean > 2*history.MaxEvents {
		return nil, errTooLong
	}
	// A Poisson number that is not 0: the first of its arrivals comes before
	// mean.
	for x := -math.Log1p(rnd.Float64() * math.Expm1(-mean)); t.met == 0 || x < mean; x += rnd.Exp() {
		defects = append(defects, Defect{
			Bay:  t.bays[rnd.Intn(len(t.bays))],
			From: t.at - c.age(rnd, since), To: t.at, Met: true,
		})
		t.met++
	}
	return defects, nil
}

// age draws the age of a defect that is present, so many hours after all were
// cleared. Its density is in proportion to the chance to dwell longer, so its
// distribution to the mean dwell within.
func (c *course) age(rnd *stream.Stream, since float64) float64 {
	s := c.sys.Scrub
	if s == nil {
		return rnd.Float64() * since
	}
	target := rnd.Float64() * s.MeanWithin(since)
	low, high := 0.0, since
	for range 60 {
		middle := (low + high) / 2
		if s.MeanWithin(middle) < target {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}
