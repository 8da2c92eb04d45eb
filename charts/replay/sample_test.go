package replay

import (
	"math"
	"sort"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/estimate"
	"arrayodds/sim/history"
	"arrayodds/sim/study"
	"arrayodds/sim/trace"
)

// invented makes a life of what is said to happen, so that its spans, its
// events and its footage agree.
type invented struct {
	trace.Life
	sets int
	keep float64 // hours of footage when full
	down []trace.Span
	runs map[int]int // drives that a bay has had
}

func newInvented(horizon float64, sets, groupsPerSet, drives, tolerance int, keep float64) *invented {
	return &invented{sets: sets, keep: keep, runs: map[int]int{}, Life: trace.Life{Horizon: horizon, Phase: 30.5, Bays: sets * groupsPerSet * drives,
		DrivesInGroup: drives, GroupsPerSet: groupsPerSet, Tolerance: tolerance, FirstLoss: math.NaN()}}
}

func (v *invented) event(at float64, kind history.Kind, bay int, change func(*history.Event)) {
	group := bay / v.DrivesInGroup
	e := history.Event{At: at, Kind: kind, Bay: bay, Group: group, Set: group / v.GroupsPerSet}
	if change != nil {
		change(&e)
	}
	v.Events = append(v.Events, e)
}

// outage is a failure, a wait, a queue and a rebuild.
func (v *invented) outage(bay int, at, wait, queue, rebuild float64) {
	v.runs[bay]++
	add := func(state trace.State, from, to float64) {
		if to > from {
			v.down = append(v.down, trace.Span{Bay: bay, State: state, From: from, To: to, Drive: v.runs[bay] + 1})
		}
	}
	add(trace.Waiting, at, at+wait)
	add(trace.Queued, at+wait, at+wait+queue)
	add(trace.Rebuilding, at+wait+queue, at+wait+queue+rebuild)
	v.event(at, history.Fails, bay, nil)
	if wait > 0 {
		v.event(at+wait, history.Arrives, bay, nil)
	} else {
		v.event(at, history.TakesSpare, bay, nil)
		v.event(at+72, history.SpareReturned, 0, nil)
	}
	begin := at + wait + queue
	v.event(begin, history.Rebuilds, bay, func(e *history.Event) { e.Until = begin + rebuild })
	v.event(begin+rebuild, history.Restored, bay, nil)
}

// loses ends the set of a bay at a time: by the drive of that bay, or by a
// sector met in its rebuild.
func (v *invented) loses(bay int, at, lasting, destroyed float64, bySector bool) {
	perSet := v.DrivesInGroup * v.GroupsPerSet
	set := bay / perSet
	inSet := func(b int) bool { return b/perSet == set }
	var spans []trace.Span
	for _, s := range v.down {
		if inSet(s.Bay) && s.To > at {
			if s.From >= at {
				continue
			}
			s.To = at
		}
		spans = append(spans, s)
	}
	v.down = spans
	var events []history.Event
	for _, e := range v.Events {
		if e.Kind == history.SpareReturned || e.At <= at || !inSet(e.Bay) {
			events = append(events, e)
		}
	}
	v.Events = events
	for b := set * perSet; b < (set+1)*perSet; b++ {
		v.down = append(v.down, trace.Span{Bay: b, State: trace.Down, From: at, To: math.Min(v.Horizon, at+lasting), Drive: v.runs[b] + 1})
	}
	if !bySector {
		v.event(at, history.Fails, bay, nil)
	}
	v.event(at, history.LosesSet, bay, func(e *history.Event) { e.Until, e.Destroyed, e.BySector = at+lasting, destroyed, bySector })
	if at+lasting < v.Horizon {
		v.event(at+lasting, history.StartsAgain, bay, nil)
	}
	v.Destroyed += destroyed
	if !v.Lost {
		v.Lost, v.FirstLoss = true, at
	}
}

// finished fills in what follows from the rest.
func (v *invented) finished() trace.Life {
	rank := []history.Kind{history.CommonCause, history.Fails, history.MeetsDefects, history.MeetsSector, history.LosesSet, history.TakesSpare, history.Restored, history.StartsAgain, history.Arrives, history.Rebuilds, history.SpareReturned}
	place := map[history.Kind]int{}
	for i, k := range rank {
		place[k] = i
	}
	sort.SliceStable(v.Events, func(a, b int) bool {
		if v.Events[a].At != v.Events[b].At {
			return v.Events[a].At < v.Events[b].At
		}
		return place[v.Events[a].Kind] < place[v.Events[b].Kind]
	})
	down := map[int]int{}
	for i := range v.Events {
		e := &v.Events[i]
		switch e.Kind {
		case history.Fails:
			down[e.Group]++
		case history.Restored:
			down[e.Group]--
		case history.StartsAgain:
			for g := e.Set * v.GroupsPerSet; g < (e.Set+1)*v.GroupsPerSet; g++ {
				down[g] = 0
			}
		}
		e.DownInGroup = down[e.Group]
	}
	sort.SliceStable(v.down, func(a, b int) bool {
		if v.down[a].Bay != v.down[b].Bay {
			return v.down[a].Bay < v.down[b].Bay
		}
		return v.down[a].From < v.down[b].From
	})
	at, i := 0.0, 0
	for b := range v.Bays {
		at = 0
		for ; i < len(v.down) && v.down[i].Bay == b; i++ {
			s := v.down[i]
			if s.From > at {
				v.Spans = append(v.Spans, trace.Span{Bay: b, From: at, To: s.From, Drive: 1})
			}
			v.Spans = append(v.Spans, s)
			at = s.To
		}
		if at < v.Horizon {
			v.Spans = append(v.Spans, trace.Span{Bay: b, From: at, To: v.Horizon, Drive: 1})
		}
	}
	if v.keep > 0 {
		v.fillHeld()
	}
	return v.Life
}

// fillHeld ramps up, and falls at each loss by the share of its set.
func (v *invented) fillHeld() {
	v.Held = []trace.Held{{At: 0, Hours: 0}, {At: v.keep, Hours: v.keep}}
	for _, e := range v.Events {
		if e.Kind != history.LosesSet {
			continue
		}
		left := v.keep * (1 - 1/float64(v.sets))
		v.Held = append(v.Held, trace.Held{At: e.At, Hours: v.keep}, trace.Held{At: e.At, Hours: left})
		from := e.At
		if v.sets == 1 {
			from = math.Min(v.Horizon, e.Until)
			v.Held = append(v.Held, trace.Held{At: from, Hours: left})
		}
		v.Held = append(v.Held, trace.Held{At: math.Min(v.Horizon, from+v.keep), Hours: v.keep})
	}
	last := v.Held[len(v.Held)-1]
	v.Held = append(v.Held, trace.Held{At: v.Horizon, Hours: last.Hours})
}

const day = 24.0

// lossLife is a double parity that loses three drives within days, and then
// lives on.
func lossLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 1, 1, 8, 2, 30.4*day)
	v.outage(5, 203.11*day, 26.4, 0, 19.2)
	v.outage(1, 640.62*day, 0, 0, 18.9)
	v.outage(3, 811.09*day, 31.2, 0, 19.5)
	v.outage(6, 811.92*day, 30.1, 0.4, 20.1)
	v.event(811.92*day, history.MeetsDefects, 6, func(e *history.Event) { e.Count, e.Destroyed = 2, 3.9/3600 })
	v.event(812.7*day, history.MeetsSector, 3, func(e *history.Event) { e.Destroyed = 1.95 / 3600 })
	v.loses(0, 813.02*day, 33.7, 44*30.4*24, false)
	v.outage(2, 1500.4*day, 19, 0, 20)
	for i := range 14 {
		from := float64(30+i*129) * day
		to := from + 41*day
		if lost := 813.02 * day; from < lost {
			to = math.Min(to, lost) // what starts again has none
		}
		v.Defects = append(v.Defects, trace.Defect{Bay: i * 3 % 8, From: from, To: to})
	}
	v.Defects = append(v.Defects, trace.Defect{Bay: 2, From: 801 * day, To: 811.92 * day, Met: true}, trace.Defect{Bay: 7, From: 809.3 * day, To: 811.92 * day, Met: true})
	sort.SliceStable(v.Defects, func(a, b int) bool { return v.Defects[a].From < v.Defects[b].From })
	return v.finished()
}

// quietLife has one outage and no loss.
func quietLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 1, 1, 8, 2, 30.4*day)
	v.outage(4, 1207.31*day, 22.3, 0, 19.4)
	return v.finished()
}

// stripedLife is two groups in one set, of which a common cause takes one.
func stripedLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 1, 2, 4, 1, 21*day)
	v.event(400.5*day, history.CommonCause, 0, nil)
	v.outage(5, 400.5*day, 12, 0, 9)
	v.loses(7, 400.5*day, 18, 900*24, false)
	return v.finished()
}

// stopLife is a single parity that an unreadable sector ends, twice, the second
// time up to the end of the life.
func stopLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 1, 1, 5, 1, 14*day)
	v.outage(2, 300.2*day, 10, 0, 14)
	v.event(300.2*day, history.MeetsDefects, 2, func(e *history.Event) { e.Count = 1 })
	v.loses(2, 300.2*day, 26, 600*24, true)
	v.outage(0, 1823.8*day, 8, 0, 14)
	v.event(1824.4*day, history.MeetsSector, 0, nil)
	v.loses(0, 1824.4*day, 40, 610*24, true)
	return v.finished()
}

// jbodLife is six drives that stand alone.
func jbodLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 6, 1, 1, 0, 30*day)
	v.loses(4, 77.77*day, 29, 170*24, false)
	v.loses(1, 1400.2*day, 64, 175*24, false)
	v.loses(1, 1460.9*day, 20, 120*24, false)
	return v.finished()
}

// vastLife is a hundred groups of ten in which much happens.
func vastLife() trace.Life {
	v := newInvented(5*unit.HoursPerYear, 100, 1, 10, 2, 30*day)
	for i := range 700 {
		v.outage(i*37%1000, float64(2+i*2)*day+float64(i%24), 30, 0, 20)
	}
	v.outage(431, 1500.1*day, 60, 0, 20)
	v.outage(433, 1500.9*day, 60, 20, 20)
	v.loses(438, 1501.7*day, 40, 300*24, false)
	return v.finished()
}

// slowSample is outages of a likely kind.
func slowSample() trace.Rebuild {
	z := trace.Rebuild{Capacities: []float64{4 * array.TB, 8 * array.TB, 12 * array.TB, 18 * array.TB, 24 * array.TB}, Waits: []float64{0, 4, 12, 26, 72, 168}, OwnSize: 2, OwnWait: 3}
	for _, w := range z.Waits {
		for _, c := range z.Capacities {
			rebuild := c / 170e6 / 3600
			run := trace.RebuildRun{Rebuild: rebuild, Exposed: w + rebuild}
			for h := 0.0; ; h++ {
				h = math.Min(h, run.Exposed)
				done := math.Max(0, (h-w)/rebuild)
				read := done * c * 6
				run.Steps = append(run.Steps, trace.RebuildStep{Hours: h, Done: done, Read: read, Unreadable: -math.Expm1(-8 * read / 1e15), Further: -math.Expm1(-6 * 0.015 / 8760 * h)})
				if h == run.Exposed {
					break
				}
			}
			z.Runs = append(z.Runs, run)
		}
	}
	return z
}

// replayedSample is an invented choice with two lives.
func replayedSample() lives {
	r := chartstest.Sample()
	o := r.Outcomes[4]
	return lives{study.Replay{Site: r.Site, Choice: o.Choice, Sizing: o.Sizing, Seed: 7, OnlyLosses: true,
		Loss:  estimate.Estimate{Value: 1. / 2100, Low: 1. / 2200, High: 1. / 2010, RelativeError: 0.024},
		Lives: []trace.Life{lossLife(), quietLife()}, Slow: slowSample(), Assumptions: r.Assumptions}}
}

// withLives puts others in the place of the sample's.
func (r lives) withLives(lives ...trace.Life) lives {
	r.Lives = lives
	return r
}
