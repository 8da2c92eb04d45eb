package plan

import (
	"context"
	"fmt"
	"math"

	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// Calendar is what is due in which year, and what is to be expected.
type Calendar struct {
	Years     []Year // to the end of the service life and on; those beyond it have risks alone
	Allowance float64
	Renew     Renewal
	ScrubDays float64 // days between scrubs; 0: none
	Words     []string
	Regular   []Duty
}

// Year is one year of service, counted from 1.
type Year struct {
	Number    int
	Beyond    bool // after the service life
	Failures  estimate.Estimate
	Most      int               // drives that fail in it at the most, in 95 % of lives
	Risk      estimate.Estimate // chance of a first loss in it, where there was none before
	Drills    int
	Batteries bool // the battery of the UPS is due
}

// Renewal is the year of age in which the risk of a year comes above what the goal
// allows it.
type Renewal struct {
	Goal bool // the site file has one
	// First is the first year whose interval reaches above; Sure the first that lies above
	// with all of its interval. 0: none within the years that were simulated.
	First, Sure int
}

// Duty is something that is done again and again.
type Duty struct{ What, When string }

const (
	replicates  = 16
	mostYears   = 50
	leastTrials = 2048 // of a replicate
)

// calendar works out the years. The risk of a year is simulated in replicates from streams
// of their own, and its interval is that of their spread.
func (p Plan) calendar(ctx context.Context, l lives, opt engine.Options) (Calendar, error) {
	out := Calendar{ScrubDays: p.scrubHours() / 24}
	risks, err := p.risks(ctx, opt)
	if err != nil {
		return out, err
	}
	build := p.Site.Build
	for y, risk := range risks {
		begins, ends := float64(y)*unit.HoursPerYear, float64(y+1)*unit.HoursPerYear
		year := Year{Number: y + 1, Risk: risk, Beyond: begins >= p.Site.ServiceLife, Failures: estimate.None()}
		if y < len(l.PerYear) {
			year.Failures, year.Most = l.PerYear[y].Mean, l.PerYear[y].Most
		}
		if !year.Beyond {
			ends = min(ends, p.Site.ServiceLife)
			year.Drills = dueWithin(build.DrillEvery, begins, ends, p.Site.ServiceLife)
			year.Batteries = p.rideThrough() > 0 && dueWithin(build.BatteryLife, begins, ends, p.Site.ServiceLife) > 0
		}
		out.Years = append(out.Years, year)
	}
	if g := p.Site.Goal; g != nil {
		out.Renew.Goal = true
		out.Allowance = -math.Expm1(math.Log1p(-g.LossChance) * unit.HoursPerYear / p.Site.ServiceLife)
		for _, y := range out.Years {
			if y.Risk.High > out.Allowance && out.Renew.First == 0 {
				out.Renew.First = y.Number
			}
			if y.Risk.Low > out.Allowance && out.Renew.Sure == 0 {
				out.Renew.Sure = y.Number
			}
		}
	}
	out.Words = p.calendarWords(out)
	out.Regular = p.duties(out)
	return out, nil
}

// dueWithin returns how often something that comes every so many hours, the first time
// after so many, comes within a span; what would come as the service ends does not.
func dueWithin(every, from, to, end float64) int {
	n := 0
	for k := math.Floor(from/every + 1e-9); ; k++ {
		at := k * every
		if at > to+1e-6 || at >= end-1e-6 {
			return n
		}
		if at > from+1e-6 {
			n++
		}
	}
}

// risks returns the chance of a first loss in each year, where there was none before, to
// twice the service life.
func (p Plan) risks(ctx context.Context, opt engine.Options) ([]estimate.Estimate, error) {
	s := p.Site
	years := int(min(mostYears, math.Ceil(2*s.ServiceLife/unit.HoursPerYear)))
	s.ServiceLife = max(s.ServiceLife, float64(years)*unit.HoursPerYear)
	sys, err := model.New(s, p.Choice)
	if err != nil {
		return nil, err
	}
	progress := opt.Progress
	opt.LossOnly = true
	opt.Accuracy *= math.Sqrt(replicates)
	opt.MaxTrials = max(leastTrials, opt.MaxTrials/replicates)
	opt.MaxWork = engine.MaxRunWork / replicates
	each := make([][]float64, years)
	trials := 0.0
	for k := range replicates {
		opt.Seed++
		opt.Progress = engine.PartOf(progress, float64(k)/replicates, float64(k+1)/replicates)
		sums, _, err := engine.Simulate(ctx, sys, opt)
		if err != nil {
			return nil, err
		}
		trials += sums.N
		before := 0.0
		for y, point := range sim.Summarise(sys, sums).LossCurve[:years] {
			each[y] = append(each[y], max(0, (point.Value-before)/(1-before)))
			before = point.Value
		}
	}
	var all []estimate.Estimate
	for _, of := range each {
		all = append(all, meanOf(of, trials))
	}
	return all, nil
}

// meanOf returns the mean of what replicates say, from their spread.
func meanOf(x []float64, trials float64) estimate.Estimate {
	n, sum, squares := float64(len(x)), 0.0, 0.0
	for _, v := range x {
		sum += v
	}
	mean := sum / n
	if mean == 0 {
		return estimate.Unseen(trials, 1)
	}
	for _, v := range x {
		squares += (v - mean) * (v - mean)
	}
	return estimate.FromError(mean, math.Sqrt(squares/(n-1)/n), n-1).AtMostOne()
}

// calendarWords says when drives should be renewed, and what else the years bring.
func (p Plan) calendarWords(c Calendar) (all []string) {
	say := func(format string, a ...any) { all = append(all, fmt.Sprintf(format, a...)) }
	last := len(c.Years)
	yearly := func(x float64) string { return figure.Chance(rounded(x, 3)) }
	switch {
	case !c.Renew.Goal:
		say("The site file has no [goal], so no age is told at which drives should be renewed for it. The risk of each year stands in the table: renew them when you would no longer take it.")
	case c.Renew.First == 0:
		say("The goal, spread evenly over the service life, allows each year a risk of %s. No year to the end of year %d comes above it with any part of its interval: by these figures the drives need no renewal for their age within %s.", yearly(c.Allowance), last, figure.Count(last, "year", "years"))
	case c.Renew.Sure == 1:
		say("The goal, spread evenly over the service life, allows each year a risk of %s. The first year is above it already: renewing drives does not mend that, another design does.", yearly(c.Allowance))
	case c.Renew.Sure == 0:
		say("The goal, spread evenly over the service life, allows each year a risk of %s. Year %d may come above it (its interval does); no year to the end of year %d surely does.", yearly(c.Allowance), c.Renew.First, last)
	case c.Renew.First == c.Renew.Sure:
		say("The goal, spread evenly over the service life, allows each year a risk of %s. Year %d comes above it: renew the drives by the age of %s%s.", yearly(c.Allowance), c.Renew.Sure, figure.Count(c.Renew.Sure-1, "year", "years"), p.beyondLife(c.Renew.Sure))
	default:
		say("The goal, spread evenly over the service life, allows each year a risk of %s. Year %d may come above it, and year %d surely does: renew the drives by the age of %s%s.", yearly(c.Allowance), c.Renew.First, c.Renew.Sure, figure.Count(c.Renew.First-1, "year", "years"), p.beyondLife(c.Renew.First))
	}
	if text := p.ageing(); text != "" {
		say("%s", text)
	}
	total := p.Result.DrivesReplaced
	say("Over the %s of service %s drives are to be expected to fail, and in 95 %% of lives at most %s.", p.life(), within(total), figure.Whole(p.Result.DrivesReplaced95.Value))
	return all
}

func (p Plan) beyondLife(year int) string {
	if float64(year-1)*unit.HoursPerYear >= p.Site.ServiceLife {
		return ", which is after the service life"
	}
	return ""
}

// ageing says what the life law of the drives knows of age.
func (p Plan) ageing() string {
	life, _, err := law.OfLife(p.Choice.Drive.Life, 1)
	if err != nil {
		return ""
	}
	first, last := life.Over(0, unit.HoursPerYear), life.Over(p.Site.ServiceLife, unit.HoursPerYear)
	switch {
	case math.Abs(last-first) <= 1e-9*first:
		return "The life of these drives is given as a rate that stays the same at every age: it knows of no wear-out, and no year is above the goal for their age. The years that their maker rates them for are a better guide."
	case last < first:
		return "By the life given, drives of the age of the service life fail less often than new ones: it knows of no wear-out."
	}
	return fmt.Sprintf("By the life given, drives of the age of the service life fail %s times as often as in their first year.", figure.Plain(rounded(last/first, 2)))
}

// duties lists what is done again and again.
func (p Plan) duties(c Calendar) (all []Duty) {
	add := func(what, when string) { all = append(all, Duty{what, when}) }
	build := p.Site.Build
	add("Look at the state of the array and at one camera's oldest footage", "every week (common practice, no source)")
	if c.ScrubDays > 0 {
		add("Scrub; read its report", "every "+unit.FormatHours(24*c.ScrubDays)+" on average, "+figure.Whole(math.Round(365/c.ScrubDays))+" a year")
	}
	if p.Sizing.Shape.Rebuilds() {
		add("Pulled-drive drill, as at acceptance, when a failure would matter least and with a copy of what matters", "every "+unit.FormatHours(build.DrillEvery))
	}
	add("Alarm test", "every month (common practice, no source)")
	add(fmt.Sprintf("Count the shelf: %s", figure.Count(p.Parts.ShelfSpares, "drive", "drives")), "every month, and after each failure")
	if p.rideThrough() > 0 {
		add("Run on battery for the ride-through, and note how long it carries", "every year (common practice, no source)")
		add("Renew the battery of the UPS", "every "+unit.FormatHours(build.BatteryLife))
	}
	add("Clean filters and fans; retighten nothing under power", "every year (common practice, no source)")
	return all
}
