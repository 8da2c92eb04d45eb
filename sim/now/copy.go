package now

import (
	"math"
	"slices"

	"arrayodds/array"
)

const (
	copiedHours  = 7 * 24.0
	networkRate  = 100e6 // bytes/s of a gigabit network (common practice, no source)
	mostCopies   = 6     // camera groups that are told of
	leastCopying = 1e6   // bytes/s
)

// copied is a copy, with how long a whole rebuild takes meanwhile.
type copied struct {
	Copy
	rebuild float64
}

// copiesOf returns the copies that can be made: of each camera group, and of all.
func copiesOf(q Request, z array.Sizing) (all []copied) {
	if len(q.Site.Cameras) == 0 || q.Choice.Care.Restore != nil {
		return nil
	}
	left := q.Choice.Drive.Transfer*array.MeanOverOuter*float64(z.Shape.UsableDrives()) - q.Site.Demand().WriteRate
	rate := math.Min(networkRate, left/2)
	if rec := q.Choice.Recorder; rec != nil && rec.Link > 0 {
		rate = math.Min(rate, rec.Link/8)
	}
	rate = math.Max(rate, leastCopying)
	loaded := q.Site
	loaded.Cameras = append(slices.Clone(q.Site.Cameras), array.Cameras{Count: 1, BitRate: 8 * rate, HoursPerDay: 24, Activity: 1, Retention: 1e-9})
	slow := loaded.RebuildHours(q.Choice, z.Shape)
	add := func(label string, days, bytes float64) {
		hours := bytes / rate / 3600
		c := Copy{Label: label, Days: days, Bytes: bytes, Rate: rate, Hours: hours, Delay: hours * (1 - z.RebuildRun/slow)}
		if n := q.Choice.Drive.ReadErrorBits; n > 0 {
			c.Unreadable = 8 * bytes / n
		}
		all = append(all, copied{c, slow})
	}
	sum, longest := 0.0, 0.0
	for i, c := range q.Site.Cameras {
		hours := math.Min(copiedHours, z.Held[i])
		bytes := c.WriteRate() * hours * 3600
		sum += bytes
		longest = math.Max(longest, hours)
		if len(q.Site.Cameras) > 1 && i < mostCopies {
			add(c.Label, hours/24, bytes)
		}
	}
	add("", longest/24, sum)
	return all
}
