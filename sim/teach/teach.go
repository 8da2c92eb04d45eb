package teach

import (
	"context"
	"fmt"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
	"arrayodds/sim/sweep"
	"arrayodds/sim/trace"
)

// Keys are the questions that a lesson can ask, those first that are asked
// always, of which there are [Usual].
var Keys = []string{"size", "response", "parity", "scrub", "batch", "groups", "layout"}

// Usual is how many of [Keys] are asked always.
const Usual = 3

// questionsBy are what puts the question of a key.
var questionsBy = map[string]func(own sweep.Point, z array.Sizing) question{
	"size": ofSize, "response": ofResponse, "parity": ofParity,
	"scrub": ofScrub, "batch": ofBatch, "groups": ofGroups, "layout": ofLayout,
}

// Run asks the usual questions of one choice and those of more, which are keys of
// [Keys], and has the simulation answer them.
func Run(ctx context.Context, a study.Request, more ...string) (Lesson, error) {
	out, questions, err := ask(a, more)
	if err != nil {
		return Lesson{}, err
	}
	points := []sweep.Point{{Site: out.Site, Choice: out.Choice}}
	for _, q := range questions {
		for _, s := range q.settings {
			if s.absent == "" {
				points = append(points, s.point)
			}
		}
	}
	series, err := sweep.Run(ctx, points, a.Options)
	if err != nil {
		return Lesson{}, err
	}
	as := series.Result(0)
	if as.Err != nil {
		return Lesson{}, as.Err
	}
	out.Loss = as.LossChance
	at := 1
	for _, q := range questions {
		found, err := q.answered(series, &at)
		if err != nil {
			return Lesson{}, err
		}
		out.Questions = append(out.Questions, found)
	}
	return out, nil
}

// Ask asks the questions of [Run] and answers none: nothing is simulated.
func Ask(a study.Request, more ...string) (Lesson, error) {
	out, questions, err := ask(a, more)
	out.Unanswered, out.Loss = true, estimate.None()
	for _, q := range questions {
		out.Questions = append(out.Questions, q.Question)
	}
	return out, err
}

// ask returns a lesson without its questions, and those.
func ask(a study.Request, more []string) (Lesson, []question, error) {
	file := a.Source.File()
	own := sweep.Point{Site: file.Site, Choice: file.Site.Choices[a.Choices[0]]}
	sizing, err := own.Site.Size(own.Choice)
	if err != nil {
		return Lesson{}, nil, err
	}
	out := Lesson{Site: own.Site, Choice: own.Choice, Sizing: sizing, Seed: a.Options.Seed, Assumptions: study.AssumptionsOn(file, own.Choice)}
	var questions []question
	for i, key := range Keys {
		usual := i < Usual
		if !usual && !slices.Contains(more, key) {
			continue
		}
		q := questionsBy[key](own, sizing)
		if q.after < 0 { // there is nothing to move
			if !usual || slices.Contains(more, key) {
				out.NotAsked = append(out.NotAsked, q.not)
			}
			continue
		}
		q.Key = key
		questions = append(questions, q)
	}
	return out, questions, nil
}

// question is one before its answer.
type question struct {
	Question
	settings      []setting
	before, after int                    // after is −1 where there is nothing to ask
	not           string                 // why there is nothing to ask
	more          func(sweep.Point) Fact // a further figure, in Before; nil: none
	why           func(before, after outage, times estimate.Estimate) string
}

// setting is one point of a question.
type setting struct {
	text, absent string
	point        sweep.Point
}

// outage is what goes on in a choice while a drive is down.
type outage struct {
	choice  array.Choice
	bays    int // of the recorder; 0: not known
	drives  int
	rebuild float64 // hours; 0 where nothing is rebuilt
	exposed float64 // hours from the failure to restored
	read    float64 // bytes
	unread  float64 // chance of an unreadable sector, without redundancy
	further float64 // chance of a further failure meanwhile
	rebuilt bool
}

func outageOf(p sweep.Point) (outage, error) {
	o := outage{choice: p.Choice, drives: p.Choice.Drives}
	if p.Choice.Recorder != nil {
		o.bays = p.Choice.Recorder.Bays
	}
	slow, err := trace.NewRebuild(p.Site, p.Choice, nil, nil)
	if err != nil || len(slow.Runs) == 0 {
		return o, err
	}
	run := slow.Runs[slow.OwnWait*len(slow.Capacities)+slow.OwnSize]
	last := run.Steps[len(run.Steps)-1]
	o.rebuilt, o.rebuild, o.exposed, o.read, o.unread, o.further = true, run.Rebuild, run.Exposed, last.Read, last.Unreadable, last.Further
	return o, nil
}

// answered fills in what the series says; at is the place of the question's first
// point, and is moved beyond its last.
func (q question) answered(series *sweep.Series, at *int) (Question, error) {
	places := make([]int, len(q.settings))
	for i, s := range q.settings {
		p := Point{Text: s.text, Absent: s.absent}
		if s.absent == "" {
			places[i] = *at
			r := series.Result(*at)
			*at++
			if r.Err != nil {
				return q.Question, r.Err
			}
			p.Loss = r.LossChance
			if q.Any {
				p.Loss = r.AnyLossChance
			}
		}
		q.Points = append(q.Points, p)
	}
	q.Before, q.After = q.before, q.after
	q.Times = series.Ratio(places[q.after], series, places[q.before]).Estimate
	if q.Any {
		q.Times = apart(q.PointAfter().Loss, q.PointBefore().Loss)
	}
	before, err := outageOf(q.settings[q.before].point)
	if err != nil {
		return q.Question, err
	}
	after, err := outageOf(q.settings[q.after].point)
	if err != nil {
		return q.Question, err
	}
	q.Facts = facts(before, after)
	if q.more != nil {
		f, then := q.more(q.settings[q.before].point), q.more(q.settings[q.after].point)
		q.Facts = append(q.Facts, Fact{f.Name, f.Before, then.Before})
	}
	q.Why = q.why(before, after, q.Times)
	return q.Question, nil
}

func facts(before, after outage) []Fact {
	row := func(name string, of func(outage) string) Fact {
		return Fact{Name: name, Before: of(before), After: of(after)}
	}
	rebuilt := func(words func(outage) string) func(outage) string {
		return func(o outage) string {
			if !o.rebuilt {
				return "nothing is rebuilt"
			}
			return words(o)
		}
	}
	return []Fact{
		row("Drives, hot spares left out", func(o outage) string { return figure.Whole(float64(o.drives)) }),
		row("Groups that they are in", func(o outage) string { return figure.Whole(float64(groupsOf(o.choice))) }),
		row("Bays taken, hot spares too", func(o outage) string {
			text := figure.Whole(float64(baysOf(o.choice)))
			if o.bays > 0 {
				text += fmt.Sprintf(" of %d", o.bays)
			}
			return text
		}),
		row("Rebuild of one drive", rebuilt(func(o outage) string { return unit.FormatHours(o.rebuild) })),
		row("From failure to restored, on average", rebuilt(func(o outage) string { return unit.FormatHours(o.exposed) })),
		row("Read for one rebuild without redundancy", rebuilt(func(o outage) string { return unit.FormatSize(o.read) })),
		row("Chance of an unreadable sector in it", rebuilt(func(o outage) string { return roughly(o.unread) })),
		row("Chance that a further drive of the group fails meanwhile", rebuilt(func(o outage) string { return roughly(o.further) })),
	}
}

// roughly returns a chance in odds, to about a hundredth: more digits would only be in
// the way of what is to be seen.
func roughly(p float64) string {
	return figure.Odds(estimate.Estimate{Value: p, Low: 0.99 * p, High: min(1, 1.01*p)})
}

// ofSize asks for drives of other sizes that hold as much in all.
func ofSize(own sweep.Point, z array.Sizing) question {
	d := own.Choice.Drive
	q := question{Question: Question{Title: "Larger drives"}, before: 1, after: 2}
	for i, times := range []float64{0.5, 1, 2, 3, 4} {
		p := own
		p.Choice.Drive.Capacity = d.Capacity * times
		s := setting{point: p}
		size := unit.FormatSize(p.Choice.Drive.Capacity)
		fewest, ok := p.Choice, true
		if i != q.before {
			fewest, ok = p.Choice.Fewest(z.Usable, p.Choice.Layout.Width())
		}
		if !ok {
			s.text, s.absent = size, "no number of such drives holds as much in this layout"
			if i == q.after {
				q.after = -1
				q.not = "Larger drives are not asked about: " + s.absent + "."
			}
		} else {
			s.point.Choice = fewest
			s.text = fmt.Sprintf("%s, %s", size, drivesOf(fewest))
		}
		q.settings = append(q.settings, s)
	}
	if q.after < 0 {
		return q
	}
	after := q.settings[q.after].point.Choice
	pull := "fewer of them, and longer rebuilds"
	if after.Drives >= own.Choice.Drives {
		pull = "no fewer of them in this layout, and longer rebuilds"
	}
	if !z.Shape.Rebuilds() {
		pull = "fewer of them"
	}
	q.Ask = fmt.Sprintf("The same room for footage on drives twice as large, %s in place of %s, and no faster: %s.%s %s",
		unit.FormatSize(2*d.Capacity), unit.FormatSize(d.Capacity), pull, reshaped(own.Choice, after), whatBecomes)
	q.why = func(before, after outage, times estimate.Estimate) string {
		if !after.rebuilt {
			return fmt.Sprintf("Nothing is rebuilt in this layout, so the length of a rebuild does not come in: %s in place of %s fail less often in all, but each takes more footage with it.", figure.Count(after.drives, "drive", "drives"), fmt.Sprint(before.drives))
		}
		return fmt.Sprintf("Two things pull against each other. There are %s in place of %d to fail; but a rebuild takes %s in place of %s, and all that while the group is short of a drive. %s",
			figure.Count(after.drives, "drive", "drives"), before.drives, unit.FormatHours(after.rebuild), unit.FormatHours(before.rebuild),
			weighed(times, "Here the longer rebuild weighs more.", "Here the smaller number of drives weighs more.", "Here the two nearly cancel."))
	}
	return q
}

// ofResponse asks for a slower response.
func ofResponse(own sweep.Point, z array.Sizing) question {
	spares := own.Choice.HotSpares > 0 && own.Choice.Care.Restore == nil
	what, ask := "response", "The new drive comes four times as late after somebody knows of the failure."
	switch {
	case own.Choice.Care.Restore != nil:
		what, ask = "restoring", "It takes four times as long to restore a failed drive."
	case spares: // which a new drive replaces too
		ask = "The new drive comes four times as late after somebody knows of the failure, and a hot spare that was taken is back four times as late too."
	}
	q := question{Question: Question{Title: "A slower " + what, Ask: ask + " " + whatBecomes}, before: 2, after: 4}
	for _, times := range []float64{0.25, 0.5, 1, 2, 4, 8} {
		p := own
		if own.Choice.Care.Restore != nil {
			p.Choice.Care.Restore = own.Choice.Care.Restore.Times(times)
		} else {
			p.Choice.Care.Response = own.Choice.Care.Response.Times(times)
			if spares && own.Choice.Care.Restock != nil {
				p.Choice.Care.Restock = own.Choice.Care.Restock.Times(times)
			}
		}
		text := "as it is"
		if times != 1 {
			text = fmt.Sprintf("%g times as long", times)
		}
		q.settings = append(q.settings, setting{text: text, point: p})
	}
	tolerance := z.Shape.Tolerance
	q.why = func(before, after outage, times estimate.Estimate) string {
		switch {
		case tolerance == 0:
			return "In this layout the first failure already loses footage, and no response brings it back: how fast somebody comes hardly matters to the chance of a loss."
		case spares:
			return fmt.Sprintf("A hot spare takes the place of a failed drive at once, so nobody is waited for unless the spares run out: for that a further drive has to fail before the spare that was taken is back. What is left is the rebuild, %s, which neither the response nor the restocking changes.", unit.FormatHours(before.rebuild))
		}
		return fmt.Sprintf("A loss needs %s while others are down. From failure to restored it now takes %s in place of %s; were that all, and every failure independent, the chance would rise about %s-fold, since each further failure has to fall into that time. %s",
			figure.Count(tolerance, "further failure", "further failures"), unit.FormatHours(after.exposed), unit.FormatHours(before.exposed),
			figure.Exact(math.Round(10*math.Pow(after.exposed/before.exposed, float64(tolerance)))/10),
			"Where it rises more, the long waits of the law weigh; where it rises less, something that no response changes has a part in it, such as an event that strikes several drives at once.")
	}
	return q
}
