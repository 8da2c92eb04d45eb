package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"strings"
	"testing"
	"time"

	"arrayodds/array"
	"arrayodds/charts/chartstest"
	"arrayodds/sim"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// sample returns the invented comparison with a doubt, a goal and a document: what is
// recommended is 5, and 3 is cheaper and misses the goal.
func sample() study.Comparison {
	c := chartstest.Sample()
	c.Site.Goal = &array.Goal{LossChance: 1e-3}
	c.Site.Document = array.Document{Customer: "Saltmarsh Ferries", PreparedBy: "Harbour planning office", Reference: "SF-114",
		ValidUntil: time.Date(2027, 3, 31, 0, 0, 0, 0, time.UTC)}
	c.Outcomes = c.Outcomes[:8] // as many as are drawn
	c.Doubt = &study.Doubt{Settings: 64, Inputs: []study.DoubtfulInput{
		{Called: "time until a new drive is in", Low: "×0.5", Likely: "within 8 h, Mon-Fri 08:00-17:00", High: "×2", Range: "half to twice, a guess"},
		{Called: "yearly failure rate of the 12 TB drives", Low: "0.8 %", Likely: "1.5 %", High: "4 %", Given: true},
		{Called: "share of the speed left to rebuilds", Low: "0.2", Likely: "0.4", High: "0.8", Range: "half to twice, at most 1, a guess"},
		{Called: "time until a failure is noticed", Low: "1 h", Likely: "2 h", High: "12 h", Given: true},
		{Called: "common-cause events a year", Low: "0.0001", Likely: "0.0005", High: "0.002", Range: "half to twice, a guess"},
	}}
	hazard := study.LeftOut{Says: "a rebuild that ends at the first sector that it cannot read", Path: "choices.*.care.unreadable", Setting: "stop", Matters: true}
	for i := range c.Outcomes {
		o := &c.Outcomes[i]
		p := 3 * o.Result.LossChance.Value
		o.Doubt = &study.ChoiceDoubt{LossInAll: chartstest.Around(min(p, 0.6), 0.1), MissingInAll: o.Result.MissingClip,
			Low: p / 30, Median: p / 2, High: min(1, 4*p), GoalMet: 0.75, MissingGoalMet: math.NaN(),
			Moves: []study.Move{{Input: 1, Factor: 30}, {Input: 2, Factor: 1. / 4}, {Input: 0, Factor: 3}, {Input: 3, Factor: 2}, {Input: 4, Factor: 1.1}}}
		o.Result.LossShares = []sim.LossShare{{Cause: model.Waiting, Estimate: estimate.Exact(0.7)}, {Cause: model.CommonCause, Estimate: estimate.Exact(0.3)}}
		o.Result.MissingByRecorder.Power, o.Result.MissingByRecorder.Mains = estimate.Exact(1.2e-4), estimate.Exact(1.2e-4)
		hazard.Factor, hazard.Chance = append(hazard.Factor, chartstest.Around(40, 0.1)), append(hazard.Chance, chartstest.Around(0.01, 0.1))
	}
	c.Doubt.LeftOut = []study.LeftOut{hazard}
	return c
}

// logoPNG returns a small picture.
func logoPNG(t *testing.T) array.Logo {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 160, 60))); err != nil {
		t.Fatal(err)
	}
	return array.Logo{MediaType: "image/png", Bytes: b.Bytes(), Width: 160, Height: 60}
}

// plain returns it as a run life by life has it.
func plain(c study.Comparison) study.Comparison {
	c.Plain, c.Doubt = true, nil
	for i := range c.Outcomes {
		c.Outcomes[i].Doubt = nil
	}
	return c
}

// many returns it with so many choices, of which the one at a place is recommended.
func many(n, place int) study.Comparison {
	c := sample()
	one := c.Outcomes[4]
	hazard := &c.Doubt.LeftOut[0]
	c.Outcomes, hazard.Factor, hazard.Chance = nil, nil, nil
	for i := range n {
		o, d := one, *one.Doubt
		o.Choice.Label = fmt.Sprintf("choice %d", i+1)
		p := 0.9e-3 * math.Pow(1.02, float64(i-place))
		d.LossInAll, d.Low, d.High = chartstest.Around(p, 0.1), p/10, min(1, 4*p)
		o.Doubt = &d
		o.Sizing.Purchase = 10_000 - 20*float64(i)
		c.Outcomes = append(c.Outcomes, o)
		hazard.Factor, hazard.Chance = append(hazard.Factor, chartstest.Around(40, 0.1)), append(hazard.Chance, chartstest.Around(0.01, 0.1))
	}
	c.Site.Goal.LossChance = 0.91e-3
	return c
}

// busy returns it with a choice that is too busy to be simulated.
func busy() study.Comparison {
	c := sample()
	o := &c.Outcomes[0]
	o.Doubt, o.Result = nil, sim.Result{LossChance: estimate.None(), DrivesReplaced: estimate.None(), MissingClip: estimate.None()}
	return c
}

// bare returns it without cameras, prices, goal and document.
func bare() study.Comparison {
	c := sample()
	c.Site.Cameras, c.Site.Goal, c.Site.Document, c.Site.Name, c.Site.Currency = nil, nil, array.Document{}, "", ""
	for i := range c.Outcomes {
		o := &c.Outcomes[i]
		o.Sizing.Purchase, o.Choice.Drive.Price = math.NaN(), math.NaN()
		o.Sizing.Retention, o.Sizing.Held, o.Sizing.Meets = math.NaN(), nil, true
		o.Result.HasCameras = false
	}
	return c
}

// longest returns it with every text as long and as wide as can be.
func longest(t *testing.T, text string) study.Comparison {
	c := sample()
	c.Site.Name, c.Site.Currency = text, "WWWWWWWW"
	c.Site.Document = array.Document{Customer: text, PreparedBy: text, Reference: text, ValidUntil: c.Site.Document.ValidUntil, Logo: logoPNG(t)}
	c.Site.Goal.MissingClip, c.Site.Goal.Budget = 0.5, 1e9
	for i := range c.Site.Cameras {
		c.Site.Cameras[i].Label = text
	}
	for i := range c.Outcomes {
		o := &c.Outcomes[i]
		o.Choice.Label, o.Choice.Drive.Label = text, text
		o.Result.Warnings = []string{text, text}
		o.Result.LossShares = nil
		for cause := range model.Causes {
			o.Result.LossShares = append(o.Result.LossShares, sim.LossShare{Cause: model.Cause(cause), Estimate: estimate.Exact(1. / 6)})
		}
	}
	for i := range c.Doubt.Inputs {
		in := &c.Doubt.Inputs[i]
		in.Called, in.Likely, in.Range = text, text, text
	}
	c.Doubt.LeftOut = append(c.Doubt.LeftOut, c.Doubt.LeftOut[0], c.Doubt.LeftOut[0])
	c.Doubt.Why = "What is not known of the inputs rests on 16 settings of them and not on 64, as these choices take long to simulate."
	return c
}

// fullest returns it with texts as long as go into the page in a size.
func fullest(t *testing.T, size string, rows int) study.Comparison {
	for n := 80; n > 0; n-- {
		c := longest(t, strings.Repeat("Seven ok ", n)[:n])
		c.Outcomes = c.Outcomes[:rows]
		if made(c).Size == size {
			return c
		}
	}
	t.Fatalf("nothing is set in the size %q", size)
	return study.Comparison{}
}

func made(c study.Comparison) *contents { return sheet{c, answer.Of(c)}.contents() }

// written returns the page as text with plain blanks.
func written(t *testing.T, c study.Comparison) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, c); err != nil {
		t.Fatal(err)
	}
	return strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(b.String())
}
