package trace

import (
	"math"

	"arrayodds/sim/history"
	"arrayodds/sim/model"
)

// course follows the events of a record and notes what rests on them: the state of
// each bay, where defects can be, when they are met, and when an unreadable sector
// can be.
type course struct {
	sys    *model.System
	events []history.Event
	bays   []bay
	groups []group
	spans  [][]Span // by bay

	runs   []run       // of drives, by their ends
	clears [][]float64 // by group: when its latent defects were last cleared
	tests  [][]test    // by group
	passes []pass
}

// bay is the state of a bay.
type bay struct {
	state  State
	since  float64
	drive  int
	begun  float64 // of the rebuild
	length float64
}

// group is the state of a group.
type group struct {
	down    int
	exposed pass // rate 0 where it is not
}

// run is the time for which one drive runs without its set being down.
type run struct {
	bay      int
	from, to float64
	lost     bool // it ends with the loss of the set, not of the drive
}

// test is a moment at which the latent defects of a group's running drives are
// met, if there are any.
type test struct {
	at    float64
	event int     // that it comes with
	loses bool    // under stop, it is known that there are some
	from  float64 // when they were last cleared
	bays  []int   // that run, where it loses
	met   int
}

// pass is a stretch of a rebuild in which an unreadable sector cannot be made
// good.
type pass struct {
	group, bay int
	from, to   float64
	rate       float64 // unreadable sectors an hour
}

// follow returns the course of events. It fills in their DownInGroup, and the Count
// of a sector that is met.
func follow(sys *model.System, events []history.Event) *course {
	n, groups := sys.Groups()*sys.Drives, sys.Groups()
	c := &course{
		sys: sys, events: events,
		bays: make([]bay, n), groups: make([]group, groups), spans: make([][]Span, n),
		clears: make([][]float64, groups), tests: make([][]test, groups),
	}
	for i := range c.bays {
		c.bays[i].drive = 1
	}
	for k := range events {
		c.take(k)
	}
	for i := range c.bays {
		c.enter(i, c.bays[i].state, sys.Horizon)
	}
	for g := range c.groups {
		c.expose(g, sys.Horizon)
	}
	return c
}

// take takes account of event k.
func (c *course) take(k int) {
	e := &c.events[k]
	switch e.Kind {
	case history.Fails:
		c.fails(k)
	case history.TakesSpare, history.Arrives:
		c.enter(e.Bay, Queued, e.At)
	case history.Rebuilds:
		c.enter(e.Bay, Rebuilding, e.At)
		c.bays[e.Bay].begun, c.bays[e.Bay].length = e.At, e.Until-e.At
		c.expose(e.Group, e.At)
	case history.Restored:
		c.enter(e.Bay, Running, e.At)
		c.groups[e.Group].down--
		c.clears[e.Group] = append(c.clears[e.Group], e.At)
		c.expose(e.Group, e.At)
	case history.MeetsDefects: // under stop, and the loss follows
		t := c.newTest(k)
		t.loses = true
		for i := e.Group * c.sys.Drives; i < (e.Group+1)*c.sys.Drives; i++ {
			if c.bays[i].state == Running {
				t.bays = append(t.bays, i)
			}
		}
		c.tests[e.Group] = append(c.tests[e.Group], t)
	case history.MeetsSector:
		e.Count = 1
	case history.LosesSet:
		e.DownInGroup = c.groups[e.Group].down
		c.loses(e)
		return
	case history.StartsAgain:
		c.startsAgain(e)
		return
	case history.CommonCause, history.SpareReturned:
		return
	}
	e.DownInGroup = c.groups[e.Group].down
}

func (c *course) fails(k int) {
	e := &c.events[k]
	state := Waiting
	if c.sys.Repair.Restore != nil {
		state = Queued
	}
	c.enter(e.Bay, state, e.At)
	c.bays[e.Bay].drive++
	g := &c.groups[e.Group]
	g.down++
	c.expose(e.Group, e.At)
	if g.down == c.sys.Tolerance && c.isTested(k) {
		c.tests[e.Group] = append(c.tests[e.Group], c.newTest(k))
	}
}

// newTest returns the test of a group's defects that comes with event k.
func (c *course) newTest(k int) test {
	e := &c.events[k]
	t := test{at: e.At, event: k}
	if n := len(c.clears[e.Group]); n > 0 {
		t.from = c.clears[e.Group][n-1]
	}
	return t
}

// isTested reports whether the failure that brings a group to its tolerance lets
// its defects be met, and none is known to be. Where several drives fail at
// once, the set may be lost first: by drives, or by the defects of a group
// before.
func (c *course) isTested(k int) bool {
	e := &c.events[k]
	if c.sys.LatentRate == 0 {
		return false
	}
	for _, f := range c.events[k+1:] {
		if f.At != e.At {
			break
		}
		if f.Kind == history.LosesSet && f.Set == e.Set {
			return f.BySector && f.Group > e.Group
		}
	}
	return true
}

// inSet returns the bays of a set: from the first up to the one behind the last.
func (c *course) inSet(s int) (from, to int) {
	n := c.sys.GroupsPerSet * c.sys.Drives
	return s * n, (s + 1) * n
}

func (c *course) loses(e *history.Event) {
	from, to := c.inSet(e.Set)
	for i := from; i < to; i++ {
		c.enter(i, Down, e.At)
	}
	for g := e.Set * c.sys.GroupsPerSet; g < (e.Set+1)*c.sys.GroupsPerSet; g++ {
		c.groups[g].down = 0
		c.expose(g, e.At)
	}
}

func (c *course) startsAgain(e *history.Event) {
	from, to := c.inSet(e.Set)
	for i := from; i < to; i++ {
		c.enter(i, Running, e.At)
	}
	for g := e.Set * c.sys.GroupsPerSet; g < (e.Set+1)*c.sys.GroupsPerSet; g++ {
		c.clears[g] = append(c.clears[g], e.At)
	}
}

// enter ends the state of a bay and begins another.
func (c *course) enter(i int, s State, at float64) {
	b := &c.bays[i]
	if at > b.since {
		c.spans[i] = append(c.spans[i], Span{Bay: i, State: b.state, From: b.since, To: at, Drive: b.drive})
		if b.state == Running {
			c.runs = append(c.runs, run{bay: i, from: b.since, to: at, lost: s == Down})
		}
	}
	b.state, b.since = s, at
}

// expose ends the stretch in which sectors of a group could not be made good,
// and begins the next where it is at its tolerance and a rebuild runs.
func (c *course) expose(g int, at float64) {
	if c.sys.ReadErrors == 0 || c.sys.Stop {
		return
	}
	grp := &c.groups[g]
	if grp.exposed.rate > 0 {
		grp.exposed.to = at
		c.passes = append(c.passes, grp.exposed)
	}
	grp.exposed = pass{}
	if grp.down < c.sys.Tolerance {
		return
	}
	first, begun := -1, math.Inf(1)
	for i := g * c.sys.Drives; i < (g+1)*c.sys.Drives; i++ {
		if b := &c.bays[i]; b.state == Rebuilding && b.begun < begun {
			first, begun = i, b.begun
		}
	}
	if first >= 0 && c.bays[first].length > 0 {
		grp.exposed = pass{group: g, bay: first, from: at, rate: c.sys.ReadErrors / c.bays[first].length}
	}
}
