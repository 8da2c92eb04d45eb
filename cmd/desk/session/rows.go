package session

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// compared is the answer of compare, in words and in numbers to draw.
type compared struct {
	Question    string    `json:"question"`
	Points      []string  `json:"points"`      // what to buy and why
	Sections    []section `json:"sections"`    // all that is said, by what it is about
	Recommended int       `json:"recommended"` // place of a choice; −1: none
	Compared    []int     `json:"compared"`    // places that the advice sets side by side
	Order       []int     `json:"order"`       // places, safest first, those that hold the footage before others
	Rows        []row     `json:"rows"`        // by place, in the order of the file
	Goal        *goal     `json:"goal"`        // null: the site has none
	Settings    int       `json:"settings"`    // at which the doubt was tried; 0: it was not
	Years       number    `json:"years"`       // of service
	Cautions    []string  `json:"cautions"`
}

// section is sentences with a word for what they are about.
type section struct {
	About string   `json:"about"`
	Says  []string `json:"says"`
}

// goal is the goal of a site.
type goal struct {
	Loss    number `json:"loss"`
	Missing number `json:"missing"` // null: not given
	Budget  number `json:"budget"`
	Words   string `json:"words"`
}

// row is one choice. Chances are over the service life; null is not known.
type row struct {
	Place    int     `json:"place"`
	Label    string  `json:"label"`
	Drive    string  `json:"drive"`
	Layout   string  `json:"layout"`
	Drives   string  `json:"drives"` // "12 drives in 2 groups, 1 hot spare"
	Bought   int     `json:"bought"` // drives and hot spares
	Usable   number  `json:"usable"` // TB
	Meets    bool    `json:"meets"`  // holds the footage
	Held     string  `json:"held"`   // "31.2 d"; empty without cameras
	HeldDays number  `json:"heldDays"`
	Chance   chance  `json:"chance"` // of losing footage, as entered
	Odds     string  `json:"odds"`
	Interval string  `json:"interval"`
	Missing  *chance `json:"missing"` // chance that a clip is missing, to reckon with; null without cameras
	MissOdds string  `json:"missingOdds"`
	Risk     chance  `json:"risk"` // to reckon with: over the doubt, or as entered where that was not worked out
	RiskOdds string  `json:"riskOdds"`
	Class    string  `json:"class"` // "about 13 of 10 000"
	Doubt    *doubt  `json:"doubt"` // null: not worked out

	Cost      string   `json:"cost"`      // to buy and over the life, in words
	CostValue number   `json:"costValue"` // over the life, or to buy where that is not known
	Goal      string   `json:"goal"`      // whether it meets the goal; empty: there is none
	MeetsGoal bool     `json:"meetsGoal"`
	Fails     string   `json:"fails"`   // what would have to be true for that to be otherwise
	Losses    string   `json:"losses"`  // what losses are made of
	Reasons   string   `json:"reasons"` // of missing clips
	Moves     []string `json:"moves"`   // what moves the chance, the most first
	LeftOut   []string `json:"leftOut"` // what hazards that are left out would do
	Warnings  []string `json:"warnings"`
}

// doubt is what the doubt about the inputs leaves of a choice's loss chance.
type doubt struct {
	Low    number `json:"low"` // 5 % point over the settings
	Median number `json:"median"`
	High   number `json:"high"` // 95 % point
	Words  string `json:"words"`
	InAll  chance `json:"lossInAll"`
	Goal   number `json:"goalMet"` // share of the settings that meet the goal; null: none
}

func comparedOf(c study.Comparison) compared {
	says := answer.Of(c)
	out := compared{
		Question: says.Question, Points: orEmpty(says.Advice), Recommended: says.Recommended, Compared: orEmpty(says.Compared), Order: says.Order,
		Years:    number(c.Site.ServiceLife / unit.HoursPerYear),
		Cautions: study.Cautions(c.Site, c.Choices(), c.Plain),
	}
	for _, part := range []section{
		{"What to buy", says.Advice}, {"Left out", says.LeftOut}, {"Redundancy", says.Parities}, {"Beaten", says.Beaten},
		{"Good to know", append(says.Idle[:len(says.Idle):len(says.Idle)], says.Notes...)},
	} {
		if len(part.Says) > 0 {
			out.Sections = append(out.Sections, part)
		}
	}
	if g := c.Site.Goal; g != nil {
		out.Goal = &goal{number(g.LossChance), given(g.MissingClip), given(g.Budget), says.Goal}
	}
	if c.Doubt != nil {
		out.Settings = c.Doubt.Settings
	}
	for i := range c.Outcomes {
		out.Rows = append(out.Rows, rowOf(c, says.Choices[i], i))
	}
	return out
}

func rowOf(c study.Comparison, said answer.Choice, place int) row {
	o := c.Outcomes[place]
	risk := answer.Risk(o)
	r := row{
		Place: place, Label: o.Choice.Label, Drive: o.Choice.Drive.Label, Layout: o.Choice.Layout.String(), Drives: drivesOf(o.Choice), Bought: o.Bought(),
		Usable: number(o.Sizing.Usable / array.TB), Meets: o.Sizing.Meets, HeldDays: number(o.Sizing.Retention / 24),
		Chance: chanceOf(o.Result.LossChance), Odds: figure.Odds(o.Result.LossChance), Interval: interval(o.Result.LossChance),
		Risk: chanceOf(risk), RiskOdds: said.InAll, Class: said.Class,
		Cost: said.Price, CostValue: number(o.Sizing.Purchase), Goal: said.Goal, MeetsGoal: c.Site.Goal != nil && answer.MeetsGoal(c, o), Fails: said.Fails,
		Losses: said.Losses, Reasons: said.Missing, Moves: orEmpty(said.Moves), LeftOut: orEmpty(said.LeftOut), Warnings: orEmpty(o.Result.Warnings),
	}
	if total := o.CostOfLife(c.Site).Total(); total.Known() {
		r.CostValue = number(total.Value)
	}
	if len(c.Site.Cameras) > 0 {
		r.Held = figure.Days(o.Sizing.Retention)
		missing := answer.MissingRisk(o)
		x := chanceOf(missing)
		r.Missing, r.MissOdds = &x, answer.Odds(missing)
	}
	if d := o.Doubt; d != nil && c.Doubt != nil && c.Doubt.Settings > 0 {
		r.Doubt = &doubt{number(d.Low), number(d.Median), number(d.High), said.Spread, chanceOf(d.LossInAll), number(d.GoalMet)}
	}
	return r
}

// drivesOf returns the drives of a choice in words.
func drivesOf(c array.Choice) string {
	text := figure.Drives(c.Drives, c.Groups)
	if c.HotSpares > 0 {
		text += ", " + figure.Count(c.HotSpares, "hot spare", "hot spares")
	}
	return text
}

// interval returns the interval of a chance as odds.
func interval(e estimate.Estimate) string {
	if !e.Known() {
		return ""
	}
	return figure.OddsInterval(e)
}

// given returns a figure that is not given where it is 0.
func given(x float64) number {
	if x == 0 {
		return number(math.NaN())
	}
	return number(x)
}
