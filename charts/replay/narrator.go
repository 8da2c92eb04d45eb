package replay

import (
	"fmt"
	"math"
	"sort"

	"arrayodds/sim/history"
	"arrayodds/sim/trace"
)

// narrator is a life with what is needed to speak of it.
type narrator struct {
	trace.Life
	Number  int // from 1
	clock   clock
	sets    int
	stop    bool // an unreadable sector with no redundancy left ends the array
	cameras bool
}

func (r lives) narrators() []narrator {
	all := make([]narrator, len(r.Lives))
	for i, l := range r.Lives {
		all[i] = narrator{Life: l, Number: i + 1, clock: clock{l.Clock()}, sets: 1,
			stop: r.Choice.Care.Stop, cameras: len(r.Site.Cameras) > 0}
		if perSet := l.DrivesInGroup * l.GroupsPerSet; perSet > 0 {
			all[i].sets = max(1, l.Bays/perSet)
		}
	}
	return all
}

func (t narrator) groups() int { return t.sets * t.GroupsPerSet }

// alone reports whether each drive stands for itself, so that there is no need to
// speak of groups.
func (t narrator) alone() bool { return t.DrivesInGroup == 1 && t.GroupsPerSet == 1 }

// groupOf returns the group of a bay, both from 0.
func (t narrator) groupOf(bay int) int { return bay / max(1, t.DrivesInGroup) }

// bay and group write their numbers, from 1.
func (t narrator) bay(b int) string { return fmt.Sprintf("bay %d", b+1) }

// group returns "the array", "group 2" or, of drives that stand alone, "bay 2".
func (t narrator) group(g int) string {
	switch {
	case t.groups() == 1:
		return "the array"
	case t.alone():
		return t.bay(g)
	}
	return fmt.Sprintf("group %d", g+1)
}

// set names what is lost together.
func (t narrator) set(s int) string {
	switch {
	case t.sets == 1:
		return "the array"
	case t.GroupsPerSet == 1:
		return t.group(s)
	}
	first := s * t.GroupsPerSet
	return fmt.Sprintf("set %d (groups %d to %d)", s+1, first+1, first+t.GroupsPerSet)
}

// outage is a bay's not running, from a failure or a loss to its running again
// or the end of the life.
type outage struct {
	Bay      int
	From, To float64
	Parts    []trace.Span // in turn
	Open     bool         // the life ended first
}

// outages are those of a life, bay by bay and by time.
type outages struct {
	all   []outage // by time
	byBay map[int][]outage
}

func (t narrator) outages() outages {
	out := outages{byBay: map[int][]outage{}}
	last := -1 // place of the outage that the span before belongs to
	for i, s := range t.Spans {
		if s.State == trace.Running || !(s.To > s.From) {
			last = -1
			continue
		}
		if last < 0 || t.Spans[i-1].Bay != s.Bay {
			out.all = append(out.all, outage{Bay: s.Bay, From: s.From})
			last = len(out.all) - 1
		}
		o := &out.all[last]
		o.To = s.To
		o.Parts = append(o.Parts, s)
		o.Open = s.To >= t.Horizon
	}
	sort.SliceStable(out.all, func(a, b int) bool { return out.all[a].From < out.all[b].From })
	for _, o := range out.all {
		out.byBay[o.Bay] = append(out.byBay[o.Bay], o)
	}
	return out
}

// near is how far apart two times may be, in hours, that were one.
const near = 1e-6

// at returns the outage of a bay that a time falls into, its beginning counted: the
// last that began.
func (all outages) at(bay int, at float64) (outage, bool) {
	of := all.byBay[bay]
	i := sort.Search(len(of), func(i int) bool { return of[i].From > at+near }) - 1
	if i < 0 || at > of[i].To+near {
		return outage{}, false
	}
	return of[i], true
}

// endedAt returns when the outage of a bay began that ends at a time.
func (all outages) endedAt(bay int, at float64) (from float64, ok bool) {
	of := all.byBay[bay]
	i := sort.Search(len(of), func(i int) bool { return of[i].To >= at-near })
	if i == len(of) || of[i].To > at+near {
		return 0, false
	}
	return of[i].From, true
}

// losses returns the events in which footage is lost with a set.
func (t narrator) losses() []history.Event {
	var all []history.Event
	for _, e := range t.Events {
		if e.Kind == history.LosesSet {
			all = append(all, e)
		}
	}
	return all
}

// heldAround returns how much footage there is just before and just after a time, in
// hours; NaN without cameras.
func (t narrator) heldAround(at float64) (before, after float64) {
	if len(t.Held) == 0 {
		return math.NaN(), math.NaN()
	}
	i := sort.Search(len(t.Held), func(i int) bool { return t.Held[i].At >= at-near })
	j := sort.Search(len(t.Held), func(i int) bool { return t.Held[i].At > at+near }) - 1
	return t.heldAt(i, at), t.heldAt(max(j, i), at)
}

// heldAt returns how much there is at a time that lies at point i or between the one
// before and i.
func (t narrator) heldAt(i int, at float64) float64 {
	if i >= len(t.Held) {
		return t.Held[len(t.Held)-1].Hours
	}
	p := t.Held[i]
	if i == 0 || p.At <= at+near {
		return p.Hours
	}
	q := t.Held[i-1]
	return q.Hours + (p.Hours-q.Hours)*(at-q.At)/(p.At-q.At)
}

// lostDays returns the footage that a loss takes, in days of all cameras together.
func (t narrator) lostDays(e history.Event) float64 {
	before, after := t.heldAround(e.At)
	return math.Max(0, before-after) / 24
}
