package plan

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
)

// Check is one check of acceptance. Predicted is NaN where there is no figure; the rest
// is sentences.
type Check struct {
	Name, How            string
	Unit                 string // of the three figures, which are in it
	Predicted, Low, High float64
	Text, Range          string // the prediction and its range in words
	Beyond               string // what a difference beyond the range says
}

// What checks allow where nothing better is known (common practice, no source).
const (
	fileSystem = 0.05 // of the usable room, for the file system and the recorder itself
	streamsVar = 0.10 // of a measured bit rate, from day to day
)

// acceptance lists the checks, with what the model predicts of each.
func (p Plan) acceptance(t tried) (all []Check) {
	all = append(all, p.usableCheck())
	if len(p.Site.Cameras) > 0 {
		all = append(all, p.writeCheck(), p.retentionCheck())
	}
	if p.Sizing.Shape.Rebuilds() {
		all = append(all, p.alarmCheck(), p.rebuildCheck(t))
		if len(p.Site.Cameras) > 0 {
			all = append(all, p.degradedCheck())
		}
	} else {
		all = append(all, p.alarmCheck())
	}
	return append(all, p.powerCutCheck())
}

func (p Plan) usableCheck() Check {
	tb := p.Sizing.Usable / array.TB
	return Check{
		Name: "Usable room", How: "Read the recorder's own figure once the array is made.",
		Unit: "TB", Predicted: tb, Low: tb * (1 - fileSystem), High: tb,
		Text:   fmt.Sprintf("%s (%s TiB)", unit.FormatSize(p.Sizing.Usable), unit.Digits(rounded(p.Sizing.Usable/(1<<40), 3), 4)),
		Range:  fmt.Sprintf("%s to %s TB; the file system takes up to %s (common practice, no source)", unit.Digits(rounded(tb*(1-fileSystem), 3), 4), unit.Digits(rounded(tb, 3), 4), percent(fileSystem)),
		Beyond: "Nine per cent less: TiB shown as TB, all is well. A whole drive's worth or two: another layout, or a spare taken as data. Less otherwise: look for a reserve of the recorder; retention falls in proportion.",
	}
}

func (p Plan) writeCheck() Check {
	rate := func(s array.Site) float64 { return s.Demand().WriteRate }
	c := Check{
		Name: "Write rate", How: "All cameras on, a whole ordinary day; read the mean from the recorder, or how much fuller the disk is ÷ 86 400 s.",
		Unit: "MB/s", Predicted: rate(p.Site) / 1e6,
		Text:   unit.FormatRate(rate(p.Site)) + fmt.Sprintf(", %s a day", unit.FormatSize(86400*rate(p.Site))),
		Beyond: "More: bit rates, hours or activity are higher than in the site file (cameras.bitrate, hours_per_day, activity), and retention is shorter in proportion. Less: a camera is off, or scenes are quieter than they will be.",
	}
	low, high, words := p.rateRange()
	c.Low, c.High = low*c.Predicted, high*c.Predicted
	c.Range = fmt.Sprintf("%s to %s; %s", unit.FormatRate(1e6*c.Low), unit.FormatRate(1e6*c.High), words)
	return c
}

// rateRange returns between what multiples of the write rate the streams may lie.
func (p Plan) rateRange() (low, high float64, words string) {
	if mean := p.Site.Demand().WriteRate; p.Site.Estimated() {
		return p.Site.Lowest().Demand().WriteRate / mean, p.Site.Highest().Demand().WriteRate / mean, "the range of the estimated bit rates"
	}
	return 1 - streamsVar, 1 + streamsVar, "a tenth from day to day (common practice, no source)"
}

func (p Plan) retentionCheck() Check {
	reach := p.Sizing.Retention
	low, high, words := p.rateRange()
	full := p.Sizing.Usable / p.Site.Demand().WriteRate / 3600
	c := Check{
		Name: "Retention once the ring is full", Unit: "d", Predicted: reach / 24, Low: reach / high / 24, High: reach / low / 24,
		How:    fmt.Sprintf("The disk is full after about %s if nothing is deleted earlier. Then find the oldest footage of the group with the longest retention; before that, reckon usable room ÷ write rate.", figure.Days(full)),
		Text:   fmt.Sprintf("room for %s", figure.Days(reach)),
		Beyond: "Shorter: the write rate is higher than predicted, or the room is less: the two checks above say which. Longer than retention allows: automatic deletion is off; local law may ask for it.",
	}
	if longest := p.Site.Demand().Longest; p.Sizing.Meets {
		c.Text += fmt.Sprintf(", %s asked", figure.Days(longest))
	} else {
		c.Text += fmt.Sprintf(" of the %s ASKED", figure.Days(longest))
	}
	c.Range = fmt.Sprintf("%s to %s; %s", figure.Days(reach/high), figure.Days(reach/low), words)
	return c
}

func (p Plan) alarmCheck() Check {
	how := "Before real footage is on it: pull one drive and note the time. Stop here if the alarm does not come."
	if !p.Sizing.Shape.Rebuilds() {
		how = "This layout survives no failure: pull no drive. Have the recorder send a test alarm, and note the time."
	}
	return Check{
		Name: "Alarm of a failed drive", How: how, Unit: "h", Predicted: math.NaN(), Low: math.NaN(), High: math.NaN(),
		Text: "somebody knows within " + p.noticeText(), Range: "that long or less",
		Beyond: "Longer, or never: care.notice is too short in the site file; a failure that nobody notices is the commonest way to lose an array. Mend it before handing over.",
	}
}

func (p Plan) rebuildCheck(t tried) Check {
	c := Check{
		Name: "Pulled-drive drill: rebuild", Unit: "h", Predicted: p.Sizing.RebuildRun, Low: math.NaN(), High: math.NaN(),
		How: "Put the drive back, or let the hot spare be taken; cameras recording, array as full as it will be or noted otherwise. Time from the rebuild's beginning to its end.",
	}
	if p.Choice.HotSpares > 0 {
		c.How += " The hot spare must be taken by itself."
	}
	if p.Choice.Care.Restore != nil {
		c.Predicted = math.NaN()
		c.Text, c.Range = "as care.restore has it, from the failure on", "the law of the site file"
		c.Beyond = "Longer: care.restore is too short, and every figure here is too good."
		return c
	}
	c.Text = unit.FormatHours(c.Predicted)
	c.Low, c.High = p.rebuildHours(t.Fast), p.rebuildHours(t.Slow)
	c.Range = fmt.Sprintf("%s to %s; %s", unit.FormatHours(c.Low), unit.FormatHours(c.High), t.ShareWords)
	mean := p.Choice.Drive.Capacity / (0.75 * p.Choice.Drive.Transfer) / 3600
	c.Beyond = fmt.Sprintf("Longer: the rebuild is given less than care.rebuild_share, or drives or controller are slower; share = %s ÷ the time found. Shorter: more is given, or the array was not full and only used blocks were rebuilt.", unit.FormatHours(mean))
	if t.SlowTimes.Known() && t.SlowLoss.Known() {
		c.Beyond += fmt.Sprintf(" At the long end the loss chance is %s in place of %s, %s times (%s).",
			figure.Odds(t.SlowLoss), figure.Odds(p.Result.LossChance), figure.Ratio(t.SlowTimes), figure.RatioInterval(t.SlowTimes))
	}
	return c
}

func (p Plan) degradedCheck() Check {
	left := p.Sizing.Shape.Tolerance - 1
	how := "While that drive is out and while it is rebuilt: look at footage of every camera of those hours, and play some back."
	if left == 0 {
		how += " The group has no redundancy left meanwhile: do it before real footage is on it."
	}
	return Check{
		Name: "Recording while degraded", How: how, Unit: "MB/s", Predicted: p.Site.Demand().WriteRate / 1e6, Low: math.NaN(), High: math.NaN(),
		Text: "no gap, at the same write rate of " + unit.FormatRate(p.Site.Demand().WriteRate), Range: "none of the cameras with a gap",
		Beyond: "Gaps: the rebuild takes what recording needs. Lower the rebuild share and set care.rebuild_share to it; the rebuild is then longer, and the loss chance higher.",
	}
}

func (p Plan) powerCutCheck() Check {
	c := Check{
		Name: "Restart after a power cut", Unit: "min", Predicted: math.NaN(), Low: math.NaN(), High: math.NaN(),
		How:    "Switch the circuit off at its breaker. The recorder must start and record again by itself when it is back, all drives in place, clocks right.",
		Text:   "off at once; records again by itself",
		Range:  "without a hand being laid on it",
		Beyond: "It stays off: set it to start when the mains is back. The array comes up degraded: have the drives start later, or look at the supply.",
	}
	if w := p.Power; w.RideThrough > 0 {
		c.How = "Switch the circuit off at its breaker and note for how long the UPS carries it, to a clean shutdown by itself. Put the mains back: it must start and record by itself, all drives in place, clocks right."
		c.Low = 60 * w.RideThrough
		c.Text = "carried for at least " + unit.FormatHours(w.RideThrough)
		c.Range = "that long or longer"
		if !math.IsNaN(w.RunTime) {
			c.Predicted, c.Low, c.High = 60*w.RunTime, 60*w.AgedRunTime, 60*w.RunTime
			c.Text = fmt.Sprintf("carried for %s by the table of a new battery", unit.FormatHours(w.RunTime))
			c.Range = fmt.Sprintf("%s to %s; %s asked", unit.FormatHours(w.AgedRunTime), unit.FormatHours(w.RunTime), unit.FormatHours(w.RideThrough))
		}
		c.Beyond = "Shorter: the load is higher than " + wattsKnown(w.Watts) + ", or the battery is old: measure the load. recorder.mains.ups_bridges is then too long, and gaps in recording are commoner than counted."
	}
	return c
}

func wattsKnown(x float64) string {
	if math.IsNaN(x) {
		return "reckoned"
	}
	return watts(x)
}
