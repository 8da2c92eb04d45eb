package teach

import (
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/sweep"
)

// mostGroups bounds the groups that a lesson divides drives into.
const mostGroups = 6

// ofGroups asks for wider groups with the same room, or where there is only one group
// for narrower ones.
func ofGroups(own sweep.Point, z array.Sizing) question {
	c, parity := own.Choice, own.Choice.Layout.Level.Parity()
	q := question{before: -1, after: -1}
	if parity == 0 || !slices.Contains(c.Layout.Level.ParityLevels(), c.Layout.Level) {
		why := "its drives stand alone or in mirrored sets"
		if c.Layout.Level == array.Erasure {
			why = "its name says how wide a group is"
		}
		q.not = fmt.Sprintf("Wider groups are not asked about: this is %s, and %s.", c.Layout, why)
		return q
	}
	data, n := z.Shape.UsableDrives(), groupsOf(c)
	for g := 1; g <= max(mostGroups, n); g++ {
		if g > mostGroups && g != n {
			continue
		}
		p := own
		p.Choice.Groups, p.Choice.Drives = g, g*((data+g-1)/g+parity)
		if g == n {
			p.Choice.Drives = c.Drives
		}
		if _, err := p.Choice.Layout.Shape(p.Choice.Drives, g); err != nil || p.Choice.Drives > array.MaxDrives {
			continue
		}
		if g == n {
			q.before = len(q.settings)
		}
		text := fmt.Sprintf("%s of %s", figure.Count(g, "group", "groups"), figure.Count(p.Choice.Drives/g, "drive", "drives"))
		q.settings = append(q.settings, setting{text: text, point: p})
	}
	wider := q.before > 0
	if wider {
		q.after = q.before - 1
	} else if q.after = q.before + 1; q.before < 0 || q.after >= len(q.settings) {
		q.after, q.not = -1, "Wider groups are not asked about: the drives of this choice go into no other number of groups."
		return q
	}
	to := q.settings[q.after].point.Choice
	q.Title = "Narrower groups"
	if wider {
		q.Title = "Wider groups"
	}
	q.Ask = fmt.Sprintf("The same room and the same parity a group, but %s in place of %s.%s %s",
		q.settings[q.after].text, q.settings[q.before].text, reshaped(c, to), whatBecomes)
	q.why = func(before, after outage, _ estimate.Estimate) string {
		tolerance := z.Shape.Tolerance
		return fmt.Sprintf("A group is lost when %s together. In a group of %d drives there are %s ways to pick those, in %s of that width %s; before, in %s, %s. On the other hand %s.",
			figure.Count(tolerance+1, "of its drives is down", "of its drives are down"), after.choice.Drives/groupsOf(after.choice),
			ways(after, tolerance+1, 1), figure.Count(groupsOf(after.choice), "group", "groups"), ways(after, tolerance+1, groupsOf(after.choice)),
			q.settings[q.before].text, ways(before, tolerance+1, groupsOf(before.choice)),
			parityWords(before, after))
	}
	return q
}

// ways returns in how many ways so many drives of one group can be picked, over groups.
func ways(o outage, pick, groups int) string {
	n := o.choice.Drives / groupsOf(o.choice)
	all := 1.0
	for i := range pick {
		all *= float64(n-i) / float64(i+1)
	}
	return figure.Whole(all * float64(groups))
}

// parityWords says what it costs to have more groups.
func parityWords(before, after outage) string {
	if after.drives > before.drives {
		return fmt.Sprintf("it takes %s more to buy and to fail, as each group has parity of its own", figure.Count(after.drives-before.drives, "drive", "drives"))
	}
	if after.drives < before.drives {
		return fmt.Sprintf("it takes %s less, which cannot fail, and a loss takes more of the footage with it", figure.Count(before.drives-after.drives, "drive", "drives"))
	}
	return "it takes as many drives"
}

// taught are the layouts that a lesson sets beside each other.
var taught = []array.Level{array.RAID1, array.RAID10, array.RAID5, array.RAID6, array.TripleParity}

// ofLayout asks for mirrors in place of parity, or the other way about, with the same
// room.
func ofLayout(own sweep.Point, z array.Sizing) question {
	q := question{before: -1, after: -1, not: "Another layout is not asked about: no number of these drives holds as much in one."}
	want := array.RAID10
	if own.Choice.Layout.Level == array.RAID10 || own.Choice.Layout.Level == array.RAID1 {
		want = array.RAID6
	}
	add := func(c array.Choice) {
		q.settings = append(q.settings, setting{text: layoutOf(c), point: sweep.Point{Site: own.Site, Choice: c}})
	}
	if !slices.Contains(taught, own.Choice.Layout.Level) {
		q.before = 0
		add(own.Choice)
	}
	for _, l := range taught {
		if l == own.Choice.Layout.Level {
			q.before = len(q.settings)
			add(own.Choice)
			continue
		}
		c := own.Choice
		c.Layout = array.Layout{Level: l}
		c, ok := c.Fewest(z.Usable, c.Layout.Width())
		if !ok {
			continue
		}
		if l == want {
			q.after = len(q.settings)
		}
		add(c)
	}
	if q.after < 0 {
		return q
	}
	to := q.settings[q.after].point.Choice
	q.Title = "Mirrors in place of parity"
	switch {
	case want == array.RAID6:
		q.Title = "Parity in place of mirrors"
	case !z.Shape.Rebuilds():
		q.Title = "Mirrors"
	}
	q.Ask = fmt.Sprintf("The same drives and the same room, but as %s in place of %s.%s %s",
		q.settings[q.after].text, layoutOf(own.Choice), reshaped(own.Choice, to), whatBecomes)
	q.why = func(before, after outage, _ estimate.Estimate) string {
		mirrors, parity := after, before
		if want == array.RAID6 {
			mirrors, parity = before, after
		}
		text := fmt.Sprintf("Of mirrors a second failure is fatal in one case only: it has to be the partner, one drive out of %d.", mirrors.drives-1)
		if parity.rebuilt && mirrors.rebuilt {
			text += fmt.Sprintf(" A rebuild reads that one drive, %s; with parity it reads all the others of the group, %s.", unit.FormatSize(mirrors.read), unit.FormatSize(parity.read))
		}
		if t := toleranceOf(parity.choice); t > 1 {
			text += fmt.Sprintf(" But parity that bears %d failures does not care which drives they are, and that is worth more than a good chance of being lucky once.", t)
		}
		return text + fmt.Sprintf(" Mirrors cost %s in place of %d.", figure.Count(mirrors.drives, "drive", "drives"), parity.drives)
	}
	return q
}

// toleranceOf returns the failures that a group survives, 0 where the layout does not
// fit.
func toleranceOf(c array.Choice) int {
	s, err := c.Layout.Shape(c.Drives, groupsOf(c))
	if err != nil {
		return 0
	}
	return s.Tolerance
}
