package trace

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// extra is an event that is not in the record, and the place in the record
// that it comes behind.
type extra struct {
	behind int
	event  history.Event
}

// newLife returns the life of a record of a system. What the record leaves open
// (latent defects, unreadable sectors that are skipped) is drawn. The error is
// errTooLong.
func newLife(sys *model.System, rec *history.Record, rnd *stream.Stream) (Life, error) {
	if rec.Full {
		return Life{}, errTooLong
	}
	l := Life{
		Horizon: sys.Horizon, Phase: rec.Phase,
		Bays: sys.Groups() * sys.Drives, DrivesInGroup: sys.Drives, GroupsPerSet: sys.GroupsPerSet, Tolerance: sys.Tolerance,
		FirstLoss: math.NaN(),
	}
	c := follow(sys, slices.Clone(rec.Events))
	for _, s := range c.spans {
		l.Spans = append(l.Spans, s...)
	}
	var extras []extra
	var err error
	if l.Defects, extras, err = c.drawDefects(rnd); err != nil {
		return Life{}, err
	}
	sectors, err := c.drawSectors(rnd)
	if err != nil {
		return Life{}, err
	}
	extras = append(append(extras, sectors...), c.spares()...)
	l.Events = merged(c.events, extras)
	if len(l.Events) > history.MaxEvents {
		return Life{}, errTooLong
	}
	for _, e := range l.Events {
		if e.Kind == history.LosesSet {
			l.Lost, l.FirstLoss = true, e.At
			break
		}
	}
	l.Destroyed = destroy(sys, l.Events)
	l.Held = held(sys, c.events)
	return l, nil
}

// drawSectors draws the unreadable sectors that rebuilds meet under skip.
func (c *course) drawSectors(rnd *stream.Stream) (extras []extra, err error) {
	expected := 0.0
	for _, p := range c.passes {
		expected += p.rate * (p.to - p.from)
	}
	if expected > 2*history.MaxEvents {
		return nil, errTooLong
	}
	for _, p := range c.passes {
		for at := p.from + rnd.Exp()/p.rate; at < p.to; at += rnd.Exp() / p.rate {
			extras = append(extras, c.at(history.Event{
				At: at, Kind: history.MeetsSector, Bay: p.bay, Group: p.group, Set: p.group / c.sys.GroupsPerSet,
				DownInGroup: c.sys.Tolerance, Count: 1,
			}))
		}
	}
	return extras, nil
}

// spares returns the events of hot spares coming back.
func (c *course) spares() (extras []extra) {
	for i := range c.events {
		if e := &c.events[i]; e.Kind == history.TakesSpare {
			if e.Until < c.sys.Horizon {
				extras = append(extras, c.at(history.Event{At: e.Until, Kind: history.SpareReturned}))
			}
			e.Until = 0 // of no meaning in a life
		}
	}
	return extras
}

// at returns an event with the place in the record where its time belongs.
func (c *course) at(e history.Event) extra {
	return extra{sort.Search(len(c.events), func(i int) bool { return c.events[i].At > e.At }) - 1, e}
}

// merged returns events and extras in one list, in the order in which they happen.
func merged(events []history.Event, extras []extra) []history.Event {
	slices.SortStableFunc(extras, func(a, b extra) int {
		return cmp.Or(cmp.Compare(a.behind, b.behind), cmp.Compare(a.event.At, b.event.At))
	})
	all := make([]history.Event, 0, len(events)+len(extras))
	for i := -1; i < len(events); i++ {
		if i >= 0 {
			all = append(all, events[i])
		}
		for len(extras) > 0 && extras[0].behind == i {
			all = append(all, extras[0].event)
			extras = extras[1:]
		}
	}
	return all
}
