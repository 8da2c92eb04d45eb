package compare

import (
	"fmt"
	"math"

	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// summary is the report in words, in the order in which it is read.
type summary struct {
	Recommended *draw.Mark // nil: none
	Advice      []string
	LeftOut     []string
	Meets       []verdict // safest first
	Short       []verdict
	Doubtful    bool
	Settings    string // at which the doubt was tried
	Parities    []string
	Beaten      []string
	Idle        []string
	Notes       []string
	Reasons     []reasons
	Risk        string // what "loss" means here
	Harms       []string
}

// verdict is one choice in words.
type verdict struct {
	Mark     draw.Mark
	Class    string // so many of the class of reference
	Main     string // odds, in all where that is known
	Spread   string
	Entered  string // as entered, with the simulation's interval
	Rest     string
	Goal     string
	Warnings []string
}

// reasons is what one choice's losses and missing clips are made of, and what moves them.
type reasons struct {
	Mark            draw.Mark
	Losses, Missing string
	Fails           string
	Moves           []string
}

func (r report) summarise() summary {
	a := r.answer
	s := summary{
		Advice: a.Advice, LeftOut: a.LeftOut, Parities: a.Parities, Beaten: a.Beaten, Idle: a.Idle, Notes: a.Notes,
		Doubtful: r.doubtful(), Risk: r.whatLossMeans(), Harms: r.harms(),
	}
	if r.doubtful() {
		s.Settings = figure.Whole(float64(r.Doubt.Settings))
	}
	for i, m := range r.marks() {
		v := r.verdict(i, m)
		if r.Outcomes[i].Sizing.Meets {
			s.Meets = append(s.Meets, v)
		} else {
			s.Short = append(s.Short, v)
		}
		if said := r.said(i); said.Losses != "" || said.Missing != "" || said.Moves != nil {
			s.Reasons = append(s.Reasons, reasons{m, said.Losses, said.Missing, said.Fails, said.Moves})
		}
		if r.places[i] == a.Recommended {
			s.Recommended = &m
			for _, text := range []string{r.said(i).Losses, r.said(i).Missing} {
				if text != "" {
					s.Advice = append(s.Advice, text)
				}
			}
		}
	}
	return s
}

func (r report) verdict(i int, m draw.Mark) verdict {
	o, said := r.Outcomes[i], r.said(i)
	v := verdict{Mark: m, Class: said.Class, Main: said.InAll, Spread: said.Spread, Goal: said.Goal, Warnings: page.OneLines(o.Result.Warnings)}
	if o.Simulated() && r.doubtful() {
		v.Entered = figure.Odds(answer.Rough(o.Result.LossChance))
		if o.Result.LossChance.High > 0 {
			v.Entered += ", " + figure.OddsInterval(o.Result.LossChance)
		}
	} else if o.Simulated() && o.Result.LossChance.High > 0 {
		v.Spread = figure.OddsInterval(o.Result.LossChance)
	}
	v.Rest = figure.Capital(said.Price) + "."
	switch longest := r.Site.Demand().Longest; {
	case o.Sizing.Meets:
	case o.Sizing.Retention >= longest:
		v.Rest = "Has no room to grow as asked for. " + v.Rest
	default:
		v.Rest = fmt.Sprintf("Reaches back %s of the %s asked for. %s", figure.Days(o.Sizing.Retention), figure.Days(longest), v.Rest)
	}
	v.Rest += r.atEnds(o)
	if odds := recordOdds(o.Result); odds != "" && !r.doubtful() {
		v.Rest += " The record of its drives alone leaves this open: " + odds + "."
	}
	return v
}

// harms tells the three kinds of harm apart, by what each takes of how many cameras.
func (r report) harms() []string {
	if !r.hasCameras() {
		return nil
	}
	cameras := 0
	for _, c := range r.Site.Cameras {
		cameras += c.Count
	}
	all := figure.Count(cameras, "camera", "cameras")
	var says []string
	least, most := math.Inf(1), 0.0
	unreadable := false
	for _, o := range r.Outcomes {
		if x := o.Result.CameraDaysPerLossHalf; x.Value > 0 {
			least, most = math.Min(least, x.Value/float64(cameras)), math.Max(most, x.Value/float64(cameras))
		}
		unreadable = unreadable || o.Result.UnreadableStripes.Value > 0
	}
	if most > 0 {
		days := few(least) + " days"
		if few(most) != few(least) {
			days = few(least) + " to " + few(most) + " days"
		}
		says = append(says, fmt.Sprintf("A group of drives lost takes what is on it: half of such losses at least %s of each of %s, averaged over all.", days, all))
	}
	if unreadable {
		says = append(says, fmt.Sprintf("A sector that cannot be read takes one stripe: about %s s of one camera.", few(r.stripeSeconds())))
	}
	gap := 0.0
	for _, o := range r.Outcomes {
		gap = math.Max(gap, o.Choice.Recorder.GapHoursPerYear(o.Result.DrivesReplaced.Value/(r.Site.ServiceLife/unit.HoursPerYear)))
	}
	if gap > 0 {
		says = append(says, fmt.Sprintf("A gap in recording takes %s for as long as it lasts: up to %s h a year here.", all, few(gap)))
	}
	return says
}

// few writes a number to two digits.
func few(x float64) string {
	return figure.Number(estimate.Estimate{Value: x, Low: 0.9 * x, High: 1.1 * x})
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

// price writes a sum of money, or where there are no prices a number of drives.
func (r report) price(x float64) string {
	if r.hasPrices() {
		return figure.Money(x, r.Site.Currency)
	}
	return figure.Count(int(x), "drive", "drives")
}
