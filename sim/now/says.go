package now

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
)

// Says is the answer in sentences.
type Says struct {
	Headline string   // how it stands
	Chance   []string // how likely a loss is, and how long it takes
	Do, Dont []string // what is to be done tonight, and what not
	Notes    []string // what bears on it besides
}

// mostDo is how many things to do are said: the first screen of a phone has no room for
// more.
const mostDo = 3

// say fills in the sentences.
func (r *Result) say() {
	r.Says = Says{Headline: r.headline()}
	s := &r.Says
	if r.Lost() && r.Sizing.Shape.DrivesInGroup == 1 {
		r.sayAlone()
		return
	}
	if r.Lost() {
		s.Chance = []string{"Footage on the group is lost to the recorder. What can still be had is a matter for a specialist in the rescue of arrays."}
		s.Do = []string{
			"Switch the recorder off. Leave every drive in its bay.",
			"Write down what it showed: which drives dropped out, when, and their serial numbers.",
			"If the footage matters, call a specialist before anything is tried. Record elsewhere meanwhile.",
		}
		s.Dont = []string{
			"Do not rebuild, and do not force a drive back.",
			"Do not re-create, initialise or format the array.",
			"Do not move or swap drives to see what happens.",
		}
		return
	}
	s.Chance = r.chances()
	s.Do = r.todo()
	s.Dont = r.notToDo()
	s.Notes = r.notes()
}

// sayAlone is what is said of a drive that stood alone.
func (r *Result) sayAlone() {
	r.Says.Chance = []string{"Each drive stands alone here: what was on this one is lost to the recorder, and nothing else is."}
	r.Says.Do = []string{
		"Let the others record on. Put a new drive in by day.",
		"If the footage matters, keep the drive as it is for a specialist in rescue.",
	}
	r.Says.Dont = []string{
		"Do not pull a drive before its number is read twice.",
		"Do not format the drive, and do not try to repair it.",
	}
}

func (r *Result) headline() string {
	left := r.Tolerance - r.Down
	down := len(r.State.Down())
	switch {
	case r.Lost() && r.Sizing.Shape.DrivesInGroup == 1:
		return fmt.Sprintf("%s down, with the footage on it. The others go on.", drives(down))
	case r.Lost() && down == 1:
		return "A drive is down, and this layout stands none. Stop, and touch nothing."
	case r.Lost():
		return "More drives are down than the array stands. Stop, and touch nothing."
	case down == 0:
		return "Every drive runs."
	case left == 0:
		return fmt.Sprintf("%s down, and no redundancy is left: one more failure can lose the footage.", drives(down))
	}
	return fmt.Sprintf("%s down. The footage is still safe from %s.", drives(down), failures(left))
}

// drives returns how many drives are down, with their verb.
func drives(n int) string {
	if n == 1 {
		return "One drive is"
	}
	return figure.Capital(figure.Count(n, "drive", "drives")) + " are"
}

func failures(n int) string {
	if n == 1 {
		return "one more failure"
	}
	return fmt.Sprintf("any %d more failures", n)
}

func (r *Result) chances() []string {
	month := figure.Odds(r.Loss) + " to lose footage within 30 days."
	if len(r.State.Down()) == 0 {
		return []string{month}
	}
	says := []string{fmt.Sprintf("%s to lose footage before all drives run again; %s within 30 days.", figure.Odds(r.BeforeWhole), figure.Odds(r.Loss))}
	if math.IsInf(r.Whole.Median.Value, 1) {
		return append(says, "In most simulated lives not all drives run again within 30 days.")
	}
	if math.IsInf(r.Whole.Ninety.Value, 1) {
		return append(says, fmt.Sprintf("All drives run again in %s or less in half of the cases; in more than one in ten not within 30 days.", Hours(r.Whole.Median.Value)))
	}
	if Hours(r.Whole.Median.Value) == Hours(r.Whole.Ninety.Value) {
		return append(says, fmt.Sprintf("All drives should run again in %s.", Hours(r.Whole.Median.Value)))
	}
	return append(says, fmt.Sprintf("All drives should run again in about %s, nine times in ten within %s.", Hours(r.Whole.Median.Value), Hours(r.Whole.Ninety.Value)))
}

// Hours returns a length of time as one tells it: hours up to four days, then days.
func Hours(h float64) string {
	switch {
	case h < 1:
		return figure.Count(max(1, int(math.Round(60*h))), "minute", "minutes")
	case h < 96:
		return figure.Plural(figure.Whole(math.Round(h)), "hour", "hours")
	}
	return figure.Plural(figure.Plain(math.Round(h/24*2)/2), "day", "days")
}

// todo returns what is to be done tonight, the most useful first.
func (r *Result) todo() (do []string) {
	if len(r.State.Down()) == 0 {
		do = append(do, "Nothing tonight. Leave it alone.")
		if r.State.Defects() > 0 {
			do = append(do, "Let a scrub read every drive to its end: sectors are known to be unreadable, and while all drives run they can be mended.")
		}
		if r.State.Spares < r.Choice.HotSpares {
			do = append(do, "Order hot spares for those that are out.")
		}
		return do
	}
	for i := range r.Actions {
		if a := &r.Actions[i]; a.Helps() && len(do) < mostDo-1 {
			do = append(do, fmt.Sprintf("%s: %s.", a.Name, r.takesOff(a)))
		}
	}
	if c := r.worthCopying(); c != nil {
		do = append(do, fmt.Sprintf("Copy the footage that matters out now: %s of %s take %s%s.", lastDays(c.Days), copiedName(c), Hours(c.Hours), r.allTake(c)))
	}
	switch {
	case len(do) == mostDo:
	case r.State.Waiting() > r.State.Spares:
		do = append(do, "Else leave it alone until the new drive is in.")
	default:
		do = append(do, "Else leave it alone: it rebuilds by itself.")
	}
	return do
}

// takesOff says what an action makes of the chance.
func (r *Result) takesOff(a *Action) string {
	return fmt.Sprintf("from %s to %s", figure.Odds(r.Loss), figure.Odds(a.Loss))
}

// lastDays returns what is copied.
func lastDays(days float64) string {
	if days == 1 {
		return "the last day"
	}
	return "the last " + figure.Plural(figure.Plain(days), "day", "days")
}

// allTake says how long a copy of all takes, behind that of one group.
func (r *Result) allTake(c *Copy) string {
	all := &r.Copies[len(r.Copies)-1]
	if c == all {
		return ""
	}
	return ", of all cameras " + Hours(all.Hours)
}

// worthCopying returns the copy to make: where no redundancy is left, of all footage if
// that is done within a day, or else of the camera group that takes the least time.
func (r *Result) worthCopying() *Copy {
	if r.Down < r.Tolerance || len(r.Copies) == 0 {
		return nil
	}
	all := &r.Copies[len(r.Copies)-1]
	if all.Hours <= 24 {
		return all
	}
	least := all
	for i := range r.Copies {
		if r.Copies[i].Hours < least.Hours {
			least = &r.Copies[i]
		}
	}
	return least
}

// copiedName returns what a copy is of.
func copiedName(c *Copy) string {
	if c.Label == "" {
		return "all cameras"
	}
	return label.OneLine(c.Label)
}

func (r *Result) notToDo() (dont []string) {
	if len(r.State.Down()) == 0 {
		return []string{"Do not pull a drive to try it.", "Do not change firmware or settings at night."}
	}
	dont = append(dont, "Do not pull a drive before its number is read twice, and never a second one.")
	if r.State.Waiting() < len(r.State.Down()) {
		dont = append(dont, "Do not restart the recorder or the rebuild.")
	} else {
		dont = append(dont, "Do not restart the recorder.")
	}
	dont = append(dont, "Do not re-create, initialise or format the array, whatever it offers.")
	if recording, idle := r.ofRecording(); recording && idle {
		dont = append(dont, "Do not stop recording: it takes nothing off.")
	}
	return dont
}

// ofRecording reports whether anything can be done about recording, and whether none of
// it takes anything off.
func (r *Result) ofRecording() (any, idle bool) {
	idle = true
	for i := range r.Actions {
		if a := &r.Actions[i]; a.OfRecording {
			any = true
			idle = idle && a.idle()
		}
	}
	return any, idle
}

func (r *Result) notes() (notes []string) {
	for i, d := range r.State.Drives {
		if d.Rebuilding && !math.IsNaN(d.RebuiltFor) && d.Rebuilt > 0 && r.RebuildHours > 0 && r.Choice.Care.Restore == nil {
			notes = append(notes, fmt.Sprintf("%s has rebuilt %s in %s. At that pace a whole rebuild takes %s; the site file makes it %s, and that is what was simulated.",
				Named(r.State, i), unit.FormatPercent(d.Rebuilt, 2), Hours(d.RebuiltFor), Hours(d.RebuiltFor/d.Rebuilt), Hours(r.RebuildHours)))
		}
	}
	if n := r.State.Waiting(); n > 0 && r.State.Spares > 0 {
		notes = append(notes, "A hot spare is free, so a rebuild onto it was taken to begin at once. If it has not, find out why.")
	}
	if n := r.State.Defects(); n > 0 && r.Down == r.Tolerance {
		if r.Choice.Care.Stop {
			notes = append(notes, fmt.Sprintf("%s known to be unreadable and no redundancy is left: as the site file has it the rebuild stops there and the footage is lost. Copy out what can be read.", sectors(n)))
		} else {
			notes = append(notes, fmt.Sprintf("%s known to be unreadable and no redundancy is left: the rebuild leaves a gap of a moment for each.", sectors(n)))
		}
	}
	if v := r.Choice.Drive.BatchVariance; v > 0 {
		notes = append(notes, "Drives that came together share their fate: that some of them failed was taken as a sign that the others are worse than their model, and that the others did not as one that they are better.")
	}
	if e := r.Exact; e != nil {
		notes = append(notes, fmt.Sprintf("The exact Markov chain, which has these laws, gives %s within 30 days.", figure.Chance(e.Loss)))
	}
	var idle []string
	for i := range r.Actions {
		if a := &r.Actions[i]; a.idle() {
			idle = append(idle, "“"+a.Name+"”")
		} else if a.Ratio.Low > 1 {
			notes = append(notes, fmt.Sprintf("“%s” makes it worse.", a.Name))
		}
	}
	if len(idle) > 0 {
		notes = append(notes, fmt.Sprintf("Nothing is gained by %s: what the rebuild waits for is something else.", figure.List(idle)))
	}
	return notes
}

func sectors(n int) string {
	if n == 1 {
		return "One sector is"
	}
	return figure.Count(n, "sector", "sectors") + " are"
}

// Named returns what a drive is called, with its number; i counts from 0.
func Named(s array.State, i int) string {
	if l := label.OneLine(s.Drives[i].Label); l != "" {
		return fmt.Sprintf("Drive %d (%s)", i+1, l)
	}
	return fmt.Sprintf("Drive %d", i+1)
}
