package replay

import (
	"fmt"
	"sort"
	"strings"

	"arrayodds/sim/figure"
	"arrayodds/sim/history"
	"arrayodds/sim/trace"
)

// mostRows is how many bays a drawing shows.
const mostRows = 40

// bayRows is which bays a drawing shows, from the top, and how its rows are
// named. A row may be the heading of a group.
type bayRows struct {
	names []string
	row   map[int]int // of a bay
	left  string      // what is left out; empty: nothing
}

// rows picks the bays to draw of a stretch of the life: all where they are few,
// else the groups in which something happens, those that are lost first.
func (t narrator) rows(w window) bayRows {
	bays := t.chosen(w)
	r := bayRows{row: map[int]int{}}
	headed := t.DrivesInGroup > 1 && t.groups() > 1
	if !headed {
		r.names = append(r.names, "") // room for the names of losses
	}
	group := -1
	for _, b := range bays {
		if g := t.groupOf(b); headed && g != group {
			group = g
			r.names = append(r.names, fmt.Sprintf("group %d", g+1))
		}
		r.row[b] = len(r.names)
		r.names = append(r.names, t.bay(b))
	}
	if n := t.Bays - len(bays); n > 0 {
		r.left = fmt.Sprintf("%s of %s bays are drawn, those of the groups in which something happens first.", figure.Capital(figure.Whole(float64(len(bays)))), figure.Whole(float64(t.Bays)))
		if t.alone() || len(bays) < t.DrivesInGroup {
			r.left = strings.Replace(r.left, "those of the groups in which", "those in which", 1)
		}
		if m := t.restless(w, r.row); m > 0 {
			r.left += fmt.Sprintf(" In %s of the others something happens too.", figure.Whole(float64(m)))
		} else {
			r.left += " In the others nothing happens in that time."
		}
	}
	return r
}

// happens returns how much happens to a bay in a stretch: 2 a loss, 1 anything else.
func (t narrator) happens(w window) map[int]int {
	weight := map[int]int{}
	for _, s := range t.Spans {
		if s.State != trace.Running && s.From <= w.to && s.To >= w.from {
			weight[s.Bay] = max(weight[s.Bay], 1)
		}
	}
	for _, d := range t.Defects {
		if d.Met && w.holds(d.To) {
			weight[d.Bay] = max(weight[d.Bay], 1)
		}
	}
	for _, e := range t.Events {
		if e.Kind == history.LosesSet && w.holds(e.At) {
			for b := e.Group * t.DrivesInGroup; b < (e.Group+1)*t.DrivesInGroup; b++ {
				if weight[b] > 0 {
					weight[b] = 2
				}
			}
		}
	}
	return weight
}

// restless counts the bays to which something happens and that are not drawn.
func (t narrator) restless(w window, row map[int]int) int {
	n := 0
	for b := range t.happens(w) {
		if _, ok := row[b]; !ok {
			n++
		}
	}
	return n
}

// chosen returns the bays to draw, in order.
func (t narrator) chosen(w window) []int {
	var bays []int
	if t.Bays <= mostRows {
		for b := range t.Bays {
			bays = append(bays, b)
		}
		return bays
	}
	weight := t.happens(w)
	of := map[int]int{} // weight of a group
	for b, n := range weight {
		of[t.groupOf(b)] = max(of[t.groupOf(b)], n)
	}
	var groups []int
	for g := range of {
		groups = append(groups, g)
	}
	sort.Slice(groups, func(a, b int) bool {
		if of[groups[a]] != of[groups[b]] {
			return of[groups[a]] > of[groups[b]]
		}
		return groups[a] < groups[b]
	})
	for _, g := range groups {
		room := mostRows - len(bays)
		whole := t.DrivesInGroup <= room
		for b := g * t.DrivesInGroup; b < (g+1)*t.DrivesInGroup && len(bays) < mostRows; b++ {
			if whole || weight[b] > 0 && len(bays) < mostRows {
				bays = append(bays, b)
			}
		}
	}
	if len(bays) == 0 {
		for b := range min(t.Bays, t.DrivesInGroup, mostRows) { // one group, for the look of it
			bays = append(bays, b)
		}
	}
	sort.Ints(bays)
	return bays
}
