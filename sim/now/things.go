package now

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/model"
)

// thing is something that can be done.
type thing struct {
	name, what string
	apply      func(Request) Request
	system     func(*model.System) // what it changes of the system besides; nil: nothing
	faster     bool                // it speeds the rebuild up
	recording  bool                // it lowers or stops recording
}

const (
	soonHours   = 4.0 // in which technician and drive can be there
	soonerHours = 1.0 // where they would be in less than twice that
)

// things returns what can be done about an array with drives down.
func things(q Request, r *Result) (all []thing) {
	if q.State.Waiting() > q.State.Spares && q.Choice.Care.Restore == nil {
		soon := soonHours
		if known := math.Max(q.State.TechnicianIn, q.State.DriveIn); known < 2*soonHours {
			soon = soonerHours
		}
		all = append(all, thing{
			name: fmt.Sprintf("Get the new drive in within %s", unit.FormatHours(soon)),
			what: fmt.Sprintf("technician and drive there in %s", unit.FormatHours(soon)),
			apply: func(q Request) Request {
				q.State.TechnicianIn, q.State.DriveIn = soon, soon
				return q
			}, faster: true,
		})
	}
	if q.Choice.Care.Restore == nil && q.Choice.Care.RebuildShare < 1 {
		all = append(all, thing{
			name: "Let the rebuild go first", what: "rebuild share 100 %, recording as it is",
			apply: func(q Request) Request {
				q.Choice.Care.RebuildShare = 1
				return q
			}, faster: true,
		})
	}
	if len(q.Site.Cameras) > 0 && q.Choice.Care.Restore == nil {
		all = append(all, recording(q)...)
	}
	if q.Choice.Care.Scrub != nil && q.Choice.Drive.LatentMean > 0 {
		all = append(all, thing{
			name: "Stop the scrub", what: "nothing scrubs for the 30 days",
			apply: func(q Request) Request { return q }, system: stopScrub,
		})
	}
	return all
}

// recording returns what can be done about recording.
func recording(q Request) []thing {
	most := 0
	for i, c := range q.Site.Cameras {
		if c.WriteRate() > q.Site.Cameras[most].WriteRate() {
			most = i
		}
	}
	change := func(q Request, change func(i int, c *array.Cameras)) Request {
		q.Site.Cameras = slices.Clone(q.Site.Cameras)
		for i := range q.Site.Cameras {
			change(i, &q.Site.Cameras[i])
		}
		return q
	}
	name := label.OneLine(q.Site.Cameras[most].Label)
	if name == "" {
		name = fmt.Sprintf("camera group %d", most+1)
	}
	return []thing{
		{
			name: "Record at half the bit rate", what: "all cameras at half their bit rate",
			apply: func(q Request) Request {
				return change(q, func(_ int, c *array.Cameras) { c.BitRate /= 2 })
			}, faster: true, recording: true,
		},
		{
			name: "Stop recording " + name, what: "the cameras that write most do not record",
			apply: func(q Request) Request {
				return change(q, func(i int, c *array.Cameras) {
					if i == most {
						c.BitRate *= 1e-9 // none
					}
				})
			}, faster: true, recording: true,
		},
	}
}

// stopScrub stops the scrub of a system now: as many defects are there as it has left, and
// those that come stay.
func stopScrub(s *model.System) {
	for g, since := range s.Start.Cleared {
		if s.LatentRate > 0 {
			s.Start.Cleared[g] = s.Defects(since) / s.LatentRate
		}
	}
	s.WithoutScrub()
}

// sort puts the actions that take off most first.
func (r *Result) sort() {
	slices.SortStableFunc(r.Actions, func(a, b Action) int {
		switch x, y := a.Ratio.Value, b.Ratio.Value; {
		case x < y || math.IsNaN(y) && !math.IsNaN(x):
			return -1
		case y < x || math.IsNaN(x) && !math.IsNaN(y):
			return 1
		}
		return 0
	})
}
