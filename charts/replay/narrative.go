package replay

import (
	"fmt"

	"arrayodds/sim/figure"
	"arrayodds/sim/history"
	"arrayodds/sim/trace"
)

// narrativeLine is one event in words.
type narrativeLine struct {
	At   float64
	When string // "day 812 (Tuesday), 03:10"
	What string // sentences
	Loss bool   // footage is lost with a set
}

// narrative tells a life event by event, each with what follows from it.
func (t narrator) narrative() []narrativeLine {
	all := t.outages()
	lines := make([]narrativeLine, 0, len(t.Events))
	for i, e := range t.Events {
		lines = append(lines, narrativeLine{e.At, t.clock.stamp(e.At), t.say(i, all), e.Kind == history.LosesSet})
	}
	return lines
}

// say returns the event at a place in words.
func (t narrator) say(place int, all outages) string {
	e := t.Events[place]
	o, known := all.at(e.Bay, e.At)
	switch e.Kind {
	case history.Fails:
		return fmt.Sprintf("The drive in %s fails.%s", t.bay(e.Bay), t.afterFailure(place, o, known))
	case history.TakesSpare:
		return fmt.Sprintf("A hot spare takes the place of the drive in %s, without a wait.", t.bay(e.Bay))
	case history.Arrives:
		after := ""
		if known && e.At > o.From {
			after = ", " + lasting(e.At-o.From) + " after the failure"
		}
		return fmt.Sprintf("A new drive is put into %s%s.", t.bay(e.Bay), after)
	case history.Rebuilds:
		text := fmt.Sprintf("The rebuild of %s begins", t.bay(e.Bay))
		if e.Until > e.At {
			text += ", to last " + lasting(e.Until-e.At)
		}
		if e.DownInGroup > 0 && e.DownInGroup == t.Tolerance {
			text += ". Until it ends, a further failure loses the footage"
		}
		return text + "."
	case history.Restored:
		after := ""
		if from, ok := all.endedAt(e.Bay, e.At); ok {
			after = fmt.Sprintf(", %s after its drive failed", lasting(e.At-from))
		}
		rest := figure.Capital(t.group(e.Group)) + " is whole again."
		if e.DownInGroup > 0 {
			rest = t.standing(e)
		}
		return fmt.Sprintf("%s is as good as before%s. %s", figure.Capital(t.bay(e.Bay)), after, rest)
	case history.CommonCause:
		return "A common cause, such as a surge or heat, strikes the drives all at once. What fails of it follows."
	case history.MeetsDefects:
		return t.meetsDefects(e)
	case history.MeetsSector:
		text := fmt.Sprintf("The rebuild of %s comes upon an unreadable sector, and there is no redundancy left to make it anew. ", t.bay(e.Bay))
		if t.stop {
			return text + "The rebuild stops, and the array with it."
		}
		return text + t.stripes(e.Destroyed) + " The rebuild goes on."
	case history.LosesSet:
		return t.losesSet(e)
	case history.StartsAgain:
		if t.alone() {
			return fmt.Sprintf("%s starts again, empty, with a new drive.", figure.Capital(t.bay(e.Bay)))
		}
		return fmt.Sprintf("%s starts again, empty, its failed drives replaced.", figure.Capital(t.set(e.Set)))
	case history.SpareReturned:
		return "A hot spare is back in the recorder."
	}
	return ""
}

// standing returns how many drives are down and how many more may fail.
func (t narrator) standing(e history.Event) string {
	text := fmt.Sprintf("%s has %s down and can bear ", figure.Capital(t.group(e.Group)), figure.Count(e.DownInGroup, "drive", "drives"))
	if left := t.Tolerance - e.DownInGroup; left > 0 {
		return text + fmt.Sprintf("%d more.", left)
	}
	return text + "no more."
}

// afterFailure returns what a failure leads to.
func (t narrator) afterFailure(place int, o outage, known bool) string {
	e := t.Events[place]
	if e.DownInGroup > t.Tolerance {
		if t.Tolerance == 0 {
			return " Nothing stands in for it."
		}
		return fmt.Sprintf(" %s has %s down, more than it can bear.", figure.Capital(t.group(e.Group)), figure.Count(e.DownInGroup, "drive", "drives"))
	}
	text := " "
	if e.DownInGroup > 0 {
		text += t.standing(e)
	}
	if !known {
		return text
	}
	switch last := o.Parts[len(o.Parts)-1]; {
	case last.State == trace.Down || o.broken():
		text += fmt.Sprintf(" It will not be restored before %s is lost.", t.set(e.Set))
	case o.Open:
		text += " It is not restored before the end of the service life."
	default:
		text += fmt.Sprintf(" It is restored %s later, %s.", lasting(o.To-e.At), t.clock.short(o.To))
	}
	return text
}

// broken reports whether a loss comes into an outage.
func (o outage) broken() bool {
	for _, p := range o.Parts {
		if p.State == trace.Down {
			return true
		}
	}
	return false
}

// stripes returns what is lost with sectors that are skipped.
func (t narrator) stripes(destroyed float64) string {
	if !t.cameras {
		return "The stripe is lost."
	}
	return "The stripe is lost with what was in it, " + cameraSeconds(destroyed) + "."
}

func (t narrator) meetsDefects(e history.Event) string {
	text := fmt.Sprintf("With no redundancy left, %s that nobody knew of cannot be made anew. ",
		figure.Count(e.Count, "unreadable sector", "unreadable sectors"))
	if t.stop {
		return text + "The rebuild cannot be finished."
	}
	lost := "What was in them is lost"
	if e.Count == 1 {
		lost = "What was in it is lost"
	}
	if !t.cameras {
		return text + lost + ", and the array goes on."
	}
	return text + lost + ", " + cameraSeconds(e.Destroyed) + " in all, and the array goes on."
}

func (t narrator) losesSet(e history.Event) string {
	what := "all that is"
	if t.cameras {
		what = "all footage"
	}
	text := fmt.Sprintf("%s is lost with %s on it", figure.Capital(t.set(e.Set)), what)
	if t.alone() {
		text = fmt.Sprintf("%s in %s is lost", figure.Capital(what), t.bay(e.Bay))
	}
	if e.BySector {
		text += ", because of an unreadable sector"
	}
	text += "."
	if t.cameras && e.Destroyed > 0 {
		text += " Gone: "
		if d := t.lostDays(e); d > 0 {
			text += daysLost(d) + ", "
		}
		text += cameraDays(e.Destroyed) + "."
	}
	switch {
	case e.Until >= t.Horizon:
		text += " It does not start again before the end of the service life."
	case e.Until > e.At:
		text += fmt.Sprintf(" It starts again, empty, %s later, %s.", lasting(e.Until-e.At), t.clock.short(e.Until))
	}
	if t.sets == 1 && t.cameras {
		text += " Until then nothing is recorded."
	}
	return text
}

// tally returns what a life comes to, in one line.
func (t narrator) tally() string {
	fails, sectors, lost := 0, 0, len(t.losses())
	for _, e := range t.Events {
		switch e.Kind {
		case history.Fails:
			fails++
		case history.MeetsDefects:
			sectors += e.Count
		case history.MeetsSector:
			sectors++
		}
	}
	parts := []string{"No drive fails"}
	if fails > 0 {
		parts[0] = figure.Capital(figure.Count(fails, "drive fails", "drives fail"))
	}
	if sectors > 0 {
		parts = append(parts, figure.Count(sectors, "unreadable sector is met", "unreadable sectors are met"))
	}
	switch {
	case lost == 0:
		parts = append(parts, "no array is lost")
	default:
		times, first := "once, on", figure.Whole(float64(t.clock.Day(t.losses()[0].At)))
		if lost == 2 {
			times = "twice, first on"
		} else if lost > 2 {
			times = figure.Whole(float64(lost)) + " times, first on"
		}
		parts = append(parts, fmt.Sprintf("footage is lost %s day %s", times, first))
	}
	text := figure.List(parts) + "."
	if t.cameras && t.Destroyed > 0 {
		if t.Destroyed >= 1 {
			text += " In all " + cameraDays(t.Destroyed) + " are destroyed."
		} else {
			text += " In all " + cameraSeconds(t.Destroyed) + " are destroyed."
		}
	}
	return text
}
