package plan

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
	"arrayodds/sim/law"
)

// scrubHours returns the mean time between scrubs; 0 where nothing scrubs.
func (p Plan) scrubHours() float64 {
	if p.Choice.Care.Scrub == nil {
		return 0
	}
	l, err := law.OfTime(p.Choice.Care.Scrub)
	if err != nil {
		return 0 // scrubs are in no open hours
	}
	return l.Mean()
}

// settings lists what is to be set, topic by topic.
func (p Plan) settings() (all []Setting) {
	add := func(topic, name, value, note string) { all = append(all, Setting{topic, name, value, note}) }
	c, shape := p.Choice, p.Sizing.Shape
	const arrayTopic, careTopic, netTopic = "Array", "Care", "Networks, time and alarms"
	add(arrayTopic, "Layout", c.Layout.String(), "")
	add(arrayTopic, "Groups", fmt.Sprintf("%d of %s", shape.Groups(), figure.Count(shape.DrivesInGroup, "drive", "drives")), groupsNote(shape))
	spares := "none"
	if c.HotSpares > 0 {
		spares = figure.Count(c.HotSpares, "drive", "drives")
	}
	add(arrayTopic, "Hot spares", spares, sparesNote(c, shape))
	if shape.Rebuilds() {
		add(arrayTopic, "Rebuild priority", percent(c.Care.RebuildShare)+" of the drives' speed, never below "+unit.FormatRate(c.Care.RebuildFloor), "automatic start; "+rebuildOrder(c))
		unreadable := "skip the stripe and go on"
		if c.Care.Stop {
			unreadable = "the rebuild stops, and the group is lost"
		}
		add(arrayTopic, "Unreadable sector in a rebuild", unreadable, "if it can be set, choose to go on")
	}
	add(arrayTopic, "Write cache", "on only with a battery or flash behind it", "else a power cut loses what it holds (common practice, no source)")
	if hours := p.scrubHours(); hours > 0 {
		add(careTopic, "Scrub (patrol read, consistency check)", "every "+unit.FormatHours(hours)+" on average", "at a low priority; its report goes where alarms go")
	} else if shape.Rebuilds() {
		add(careTopic, "Scrub (patrol read, consistency check)", "none, as the site file has it", "turn it on if the recorder can: what it finds early is not found in a rebuild")
	}
	for i, group := range p.Site.Cameras {
		note := ""
		if held := p.Sizing.Held[i]; held < group.Retention-1e-9 {
			note = fmt.Sprintf("THE RING HOLDS ONLY %s", figure.Days(held))
		}
		add("Retention of each camera group", group.Label, figure.Days(group.Retention), note)
	}
	if len(p.Site.Cameras) > 0 {
		add("Retention of each camera group", "When the ring is full", "overwrite the oldest", "delete nothing earlier than retention asks; local law may ask for deletion after it")
		all = append(all, p.intake()...)
	}
	add(netTopic, "Camera network", "", "a network of its own, that clients and the internet do not reach")
	add(netTopic, "Client network", "", "on another port of the recorder; not routed to the cameras")
	add(netTopic, "Time source", p.Site.Build.TimeSource, "one for recorder and cameras; footage with the wrong time is no evidence")
	add(netTopic, "Alarms go to", p.Site.Build.AlarmsTo, "drive failed, group degraded, rebuild begun and ended, spare used, scrub found errors, recording stopped, on battery, fan, temperature")
	add(netTopic, "Alarm arrives within", p.noticeText(), "that is what the figures count with: try it at acceptance")
	add(netTopic, "UPS signals the recorder", "", "shut down cleanly before the battery is empty; start by itself when the mains is back")
	return all
}

func groupsNote(s array.Shape) string {
	switch s.Tolerance {
	case 0:
		return "none survives a failure: what a failed drive held is lost"
	case 1:
		return "each survives one failed drive"
	}
	return fmt.Sprintf("each survives %d failed drives", s.Tolerance)
}

func sparesNote(c array.Choice, s array.Shape) string {
	switch {
	case c.HotSpares == 0:
		return ""
	case !s.Rebuilds():
		return "of no use to this layout"
	case s.Groups() > 1:
		return "global: any group may take one, at once and by itself"
	}
	return "taken at once and by itself"
}

func rebuildOrder(c array.Choice) string {
	if c.Care.Parallel {
		return "several drives of a group at once"
	}
	return "one drive of a group after the other"
}

// noticeText returns the time within which a failure is noticed.
func (p Plan) noticeText() string {
	l, err := law.OfTime(p.Choice.Care.Notice)
	if err != nil {
		return ""
	}
	return unit.FormatHours(l.Mean())
}

// intake is what the recorder has to take in.
func (p Plan) intake() (all []Setting) {
	const topic = "What the recorder must take in"
	d := p.Site.Demand()
	low, high := p.Site.Lowest().Demand(), p.Site.Highest().Demand()
	between := func(text func(float64) string, of func(array.Demand) float64) string {
		if !p.Site.Estimated() {
			return text(of(d))
		}
		return fmt.Sprintf("%s (%s to %s)", text(of(d)), text(of(low)), text(of(high)))
	}
	all = append(all, Setting{topic, "Mean over a day", between(unit.FormatRate, func(d array.Demand) float64 { return d.WriteRate }), ""})
	note := "recorder.write_limit is not given: ask what the recorder can take in"
	if r := p.Choice.Recorder; r != nil && r.WriteLimit > 0 {
		note = fmt.Sprintf("of a limit of %s", unit.FormatRate(r.WriteLimit))
		if high.PeakRate > r.WriteLimit {
			note += ": IT IS TOO MUCH"
		}
	}
	all = append(all, Setting{topic, "Peak, every camera at once", between(unit.FormatRate, func(d array.Demand) float64 { return d.PeakRate }), note})
	note = "recorder.link is not given"
	if free := p.Site.Highest().FreeLink(p.Choice.Recorder); !math.IsNaN(free) {
		note = fmt.Sprintf("of a link of %s", unit.FormatBitRate(p.Choice.Recorder.Link))
		switch {
		case free < 0:
			note += ": IT IS TOO SLOW"
		case free < array.EnoughFree:
			note += fmt.Sprintf(": little stays free, leave %s (common practice, no source)", percent(array.EnoughFree))
		}
	}
	return append(all, Setting{topic, "The same on the network", between(unit.FormatBitRate, func(d array.Demand) float64 { return 8 * d.PeakRate }), note})
}
