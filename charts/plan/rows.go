package plan

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// partRow is one line of the list of parts; an empty Price or Sum is to be filled in.
type partRow struct {
	Name, Label, Note string
	Count             string
	Price, Sum        string
	Free              bool
}

func (s sheets) parts() (rows []partRow, sum, unpriced string) {
	p := s.Plan.Parts
	for _, l := range p.Lines {
		row := partRow{Name: l.Name, Label: label.OneLine(l.Label), Note: l.Note, Count: figure.Whole(float64(l.Count)), Free: l.Free}
		if !math.IsNaN(l.Price) {
			row.Price, row.Sum = figure.Money(l.Price, ""), figure.Money(l.Sum, "")
		}
		rows = append(rows, row)
	}
	if p.Priced {
		sum = figure.Money(p.Sum, label.OneLine(s.Site.Currency))
	}
	if len(p.Unpriced) > 0 {
		unpriced = "Without " + lower(figure.List(p.Unpriced)) + ", whose price the site file does not give."
	}
	return rows, sum, unpriced
}

// known returns a text, or nothing where its figure is not known: a line to write on.
func known(x float64, text string) string {
	if math.IsNaN(x) || x == 0 {
		return ""
	}
	return text
}

func (s sheets) partFacts() []fact {
	p := s.Plan.Parts
	return []fact{
		{Name: "Weight with its drives", Text: known(p.Weight, digits(p.Weight)+" kg"), Note: fmt.Sprintf("drives alone %s kg", digits(p.Drives))},
		{Name: "Heat", Text: known(p.Watts, digits(p.Watts)+" W, "+digits(p.Heat)+" BTU/h")},
		{Name: "Rack units", Text: known(float64(p.Units), figure.Whole(float64(p.Units)))},
	}
}

func (s sheets) powerFacts() []fact {
	w := s.Power
	ups := fact{Name: "UPS, at least", Text: known(w.RatingW, digits(w.RatingW)+" W and "+digits(w.RatingVA)+" VA")}
	battery := fact{Name: "Its battery when new, at least", Text: known(w.BatteryWh, digits(w.BatteryWh)+" Wh")}
	facts := []fact{
		{Name: "Power", Text: known(w.Watts, digits(w.Watts)+" W")},
		{Name: "At a power factor of " + figure.Plain(w.PowerFactor), Text: known(w.VoltAmperes, digits(w.VoltAmperes)+" VA")},
		{Name: "Heat", Text: known(w.Heat, digits(w.Heat)+" BTU/h")},
		{Name: "Energy", Text: known(w.KWhPerYear, digits(w.KWhPerYear)+" kWh a year")},
	}
	if w.RideThrough > 0 {
		facts = append(facts, fact{Name: "Ride-through asked for", Text: unit.FormatHours(w.RideThrough)}, ups, battery)
	}
	if !math.IsNaN(w.RunTime) {
		facts = append(facts, fact{Name: "Run time of the stated UPS", Text: unit.FormatHours(w.RunTime) + " new", Note: unit.FormatHours(w.AgedRunTime) + " at the end of its battery's life"})
	}
	return facts
}

func (s sheets) topics() (all []topic) {
	for _, x := range s.Settings {
		if len(all) == 0 || all[len(all)-1].Name != x.Topic {
			all = append(all, topic{Name: x.Topic})
		}
		t := &all[len(all)-1]
		t.Rows = append(t.Rows, fact{label.OneLine(x.Name), label.OneLine(x.Value), x.Note})
	}
	return all
}

// checkRow is one check, with room for what was found.
type checkRow struct {
	Number                         int
	Name, How, Text, Range, Beyond string
}

func (s sheets) checks() (all []checkRow) {
	for i, c := range s.Acceptance {
		all = append(all, checkRow{i + 1, c.Name, glue(c.How), glue(c.Text), glue(c.Range), glue(c.Beyond)})
	}
	return all
}

// yearRow is one year of the calendar.
type yearRow struct {
	Number              string
	Beyond              bool
	Failures, Between   string
	Most, Risk, RiskOf  string
	Drills, Scrubs, Due string
	Above               string
}

func (s sheets) years() (rows []yearRow, notes []string) {
	c := s.Calendar
	for _, y := range c.Years {
		row := yearRow{Number: fmt.Sprint(y.Number), Beyond: y.Beyond, Risk: page.Unbroken(figure.Odds(y.Risk)), RiskOf: riskInterval(y.Risk)}
		if y.Failures.Known() {
			row.Failures, row.Between, row.Most = figure.Number(y.Failures), figure.Interval(y.Failures), fmt.Sprint(y.Most)
		}
		if !y.Beyond {
			row.Drills = fmt.Sprint(y.Drills)
			if c.ScrubDays > 0 {
				row.Scrubs = figure.Whole(math.Round(365 / c.ScrubDays))
			}
			if y.Batteries {
				row.Due = "UPS battery"
			}
		}
		if c.Renew.Goal {
			switch {
			case y.Risk.Low > c.Allowance:
				row.Above = "above the goal's share"
			case y.Risk.High > c.Allowance:
				row.Above = "may be above it"
			}
		}
		rows = append(rows, row)
	}
	notes = append(notes, "Failures: the mean of simulated lives with its 95 % interval, and what 95 % of lives do not exceed. Risk: the chance of a first loss in that year if there was none before. Years after the service life are there to show when drives are too old; they are drawn from runs that go on with drives that fail being replaced.")
	return rows, notes
}

func riskInterval(e estimate.Estimate) string {
	if e.Value == 0 || e.High == e.Low {
		return ""
	}
	return page.Unbroken(figure.OddsInterval(e))
}

// digits writes a figure of the site to three digits.
func digits(x float64) string {
	if math.IsNaN(x) || x == 0 {
		return "0"
	}
	by := math.Pow10(2 - int(math.Floor(math.Log10(math.Abs(x)))))
	return unit.Digits(math.Round(x*by)/by, 5)
}

// lower returns s with its first letter in lower case.
func lower(s string) string {
	if s == "" || len(s) > 1 && s[1] >= 'A' && s[1] <= 'Z' { // an abbreviation
		return s
	}
	return string(s[0]|0x20) + s[1:]
}

// glued keeps numbers and their units in one line.
func glued(texts []string) (all []string) {
	for _, t := range texts {
		all = append(all, glue(t))
	}
	return all
}

// glue makes the blank between a figure and a short word behind it, which is mostly a
// unit, one at which no line breaks.
func glue(text string) string {
	const short = 4 // letters
	words := strings.Split(text, " ")
	var b strings.Builder
	for i, w := range words {
		b.WriteString(w)
		if i == len(words)-1 {
			break
		}
		last := byte(' ')
		if w != "" {
			last = w[len(w)-1]
		}
		if next := strings.TrimRight(words[i+1], ".,;:)"); last >= '0' && last <= '9' && len(next) <= short {
			b.WriteString("\u00a0")
		} else {
			b.WriteByte(' ')
		}
	}
	return b.String()
}
