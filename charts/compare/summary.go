package compare

import (
	"fmt"
	"math"
	"sort"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// summary is the report in words, in the order in which it is read.
type summary struct {
	Lead    string
	Meets   []verdict // safest first
	Short   []verdict
	Steps   []step
	StepsIn string // what the steps are counted in, and which were left out
	Beaten  string // choices that no step leads to
	Risk    string // what "loss" means here
}

// verdict is one choice in words.
type verdict struct {
	Mark     draw.Mark
	Main     string
	Interval string
	Rest     string
	Warnings []string
}

// step is what paying more buys.
type step struct {
	From, To draw.Mark
	First    bool
	Text     string
}

func (r report) summarise() summary {
	s := summary{Risk: r.whatLossMeans()}
	marks := r.marks()
	for i, o := range r.Outcomes {
		v := r.verdict(o, marks[i])
		if o.Sizing.Meets {
			s.Meets = append(s.Meets, v)
		} else {
			s.Short = append(s.Short, v)
		}
	}
	byRisk := func(v []verdict) {
		sort.SliceStable(v, func(a, b int) bool {
			x, y := r.Outcomes[v[a].Mark.Number-1], r.Outcomes[v[b].Mark.Number-1]
			if x.Simulated() != y.Simulated() {
				return x.Simulated()
			}
			return x.Result.LossChance.Value < y.Result.LossChance.Value
		})
	}
	byRisk(s.Meets)
	byRisk(s.Short)
	s.Lead = r.lead(len(s.Meets))
	s.steps(r, marks)
	return s
}

func (r report) lead(meet int) string {
	n := len(r.Outcomes)
	if !r.hasCameras() {
		return fmt.Sprintf("%s compared over %s. The site file names no cameras, so the choices are compared by capacity alone.",
			figure.Capital(figure.Count(n, "choice", "choices")), page.ServiceLife(r.Site))
	}
	d, cameras := r.Site.Demand(), 0
	for _, c := range r.Site.Cameras {
		cameras += c.Count
	}
	ask := fmt.Sprintf("%s that must be kept for up to %s: %s TB.",
		figure.Count(cameras, "camera writes footage", "cameras write footage"), daysInWords(d.Longest), figure.Exact(d.Needed/array.TB))
	ask += r.estimatedDemand()
	switch meet {
	case 0:
		return ask + fmt.Sprintf(" None of the %s holds that.", figure.Count(n, "choice", "choices"))
	case n:
		return ask + fmt.Sprintf(" All of the %s hold it.", figure.Count(n, "choice", "choices"))
	}
	verb := "hold"
	if meet == 1 {
		verb = "holds"
	}
	return ask + fmt.Sprintf(" %s of %s %s it.", figure.Whole(float64(meet)), figure.Count(n, "choice", "choices"), verb)
}

func daysInWords(hours float64) string {
	return figure.Plural(figure.Plain(hours/24), "day", "days")
}

func (r report) verdict(o study.Outcome, m draw.Mark) verdict {
	v := verdict{
		Mark:     m,
		Main:     figure.Odds(o.Result.LossChance) + " over " + page.ServiceLife(r.Site),
		Interval: figure.OddsInterval(o.Result.LossChance),
		Warnings: page.OneLines(o.Result.Warnings),
	}
	if o.Result.LossChance.High == 0 {
		v.Main, v.Interval = "no loss found in "+page.ServiceLife(r.Site), ""
	}
	if !o.Simulated() {
		v.Main, v.Interval = "not simulated", ""
	}
	cost := ""
	if !math.IsNaN(o.Sizing.Purchase) {
		cost = r.price(o.Sizing.Purchase) + " to buy"
	} else {
		cost = figure.Count(o.Bought(), "drive", "drives")
	}
	if o.Sizing.Meets {
		v.Rest = figure.Capital(cost) + "." + r.atEnds(o)
	} else {
		v.Rest = fmt.Sprintf("Reaches back %s of the %s asked for. %s.", figure.Days(o.Sizing.Retention), figure.Days(r.Site.Demand().Longest), figure.Capital(cost)) + r.atEnds(o)
	}
	if odds := recordOdds(o.Result); odds != "" {
		v.Rest += " The record of its drives alone leaves this open: " + odds + "."
	}
	return v
}

// recordOdds returns the interval that comes of the record behind the life law, or
// nothing where that law is certain.
func recordOdds(x sim.Result) string {
	if x.Record == nil || x.Record.High == 0 {
		return ""
	}
	if x.Record.High < 1.1*x.Record.Low {
		return "by less than 10 %" // what it is simulated to
	}
	end := func(p float64) string {
		return figure.Odds(estimate.Estimate{Value: p, Low: 0.95 * p, High: 1.05 * p})
	}
	return end(x.Record.Low) + " to " + end(x.Record.High)
}

func (r report) whatLossMeans() string {
	text := "Risk here is the chance of losing a whole group of drives at least once in " + page.ServiceLife(r.Site) +
		", with all the footage on it; on a JBOD, the chance that any drive's footage is lost."
	for _, o := range r.Outcomes {
		if o.Redundant() && !o.Choice.Care.Stop {
			return text + " Single unreadable sectors are not counted in it; they have a table of their own."
		}
	}
	return text
}

func (s *summary) steps(r report, marks []draw.Mark) {
	cost := r.costOf()
	path := r.frontier(cost)
	for n, i := range path {
		o := r.Outcomes[i]
		to := figure.Odds(o.Result.LossChance) + " over " + page.ServiceLife(r.Site)
		if n == 0 {
			s.Steps = append(s.Steps, step{To: marks[i], First: true,
				Text: fmt.Sprintf("is the cheapest that meets the demand: %s, with a loss chance of %s.", r.price(cost(o)), to)})
			if !r.hasPrices() {
				s.Steps[0].Text = fmt.Sprintf("meets the demand with the fewest drives: %s, with a loss chance of %s.", r.price(cost(o)), to)
			}
			continue
		}
		before := r.Outcomes[path[n-1]]
		extra := cost(o) - cost(before)
		share := ""
		if cost(before) > 0 {
			share = fmt.Sprintf(" (+%.0f %%)", 100*extra/cost(before))
		}
		text := fmt.Sprintf("%s more%s takes the loss chance from %s to %s", r.price(extra), share, figure.Odds(before.Result.LossChance), to)
		if o.Result.LossChance.Value > 0 {
			text += fmt.Sprintf(", %s times smaller", figure.Times(before.Result.LossChance, o.Result.LossChance))
		}
		s.Steps = append(s.Steps, step{From: marks[path[n-1]], To: marks[i], Text: text + "."})
	}
	s.beaten(r, path, marks, cost)
	s.StepsIn = "Counted in the purchase price in " + figure.CurrencyName(r.Site.Currency) + ": drives, hot spares and recorder. A dearer choice counts as a step only where its 95 % interval lies wholly below that of the step before."
	if !r.hasPrices() {
		s.StepsIn = "Counted in drives, as the site file gives no prices. A choice with more drives counts as a step only where its 95 % interval lies wholly below that of the step before."
	}
}

// price writes a sum of money, or where there are no prices a number of drives.
func (r report) price(x float64) string {
	if r.hasPrices() {
		return figure.Money(x, r.Site.Currency)
	}
	return figure.Count(int(x), "drive", "drives")
}

func (s *summary) beaten(r report, path []int, marks []draw.Mark, cost func(study.Outcome) float64) {
	on := map[int]bool{}
	for _, i := range path {
		on[i] = true
	}
	var beaten, unpriced, unknown []string
	for i, o := range r.Outcomes {
		name := fmt.Sprintf("%d (%s)", marks[i].Number, label.Short(o.Choice.Label))
		switch {
		case !o.Sizing.Meets || on[i]:
		case !o.Simulated():
			unknown = append(unknown, name)
		case math.IsNaN(cost(o)):
			unpriced = append(unpriced, name)
		default:
			beaten = append(beaten, name)
		}
	}
	if len(beaten) > 0 {
		s.Beaten = "Not on this path, as another choice is no dearer and no riskier as far as this run can tell: " + figure.List(beaten) + "."
		if !r.hasPrices() {
			s.Beaten = "Not on this path, as another choice needs no more drives and is no riskier as far as this run can tell: " + figure.List(beaten) + "."
		}
	}
	leftOut := func(why string, names []string) {
		if len(names) == 0 {
			return
		}
		if s.Beaten != "" {
			s.Beaten += " "
		}
		s.Beaten += "Left out " + why + ": " + figure.List(names) + "."
	}
	leftOut("for want of a price", unpriced)
	leftOut("as not simulated", unknown)
}
