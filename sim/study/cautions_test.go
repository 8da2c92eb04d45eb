package study

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// Every law of life has a caution of its own: only a rate that is stated as one
// rate is spoken of as a data sheet's. Stated laws come before those of a record.
func TestCautionsFollowTheLaws(t *testing.T) {
	t.Parallel()
	const sheet, weibull, years, record, holidays = "from a data sheet", "A Weibull law", "by year of age", "from a record", "no holidays"
	open := array.OpenHours{Within: 8, Week: unit.Week{{From: 8, To: 17}}}
	for name, c := range map[string]struct {
		lives []array.Life
		want  []string
	}{
		"constant": {[]array.Life{array.ConstantRate{AFR: 0.01}}, []string{sheet, holidays}},
		"Weibull":  {[]array.Life{array.WeibullLife{Shape: 1.1, Scale: 5e5}}, []string{weibull, holidays}},
		"by year":  {[]array.Life{array.RateByYear{AFR: []float64{0.01}}}, []string{years, holidays}},
		"record":   {[]array.Life{array.FieldRecord{DriveDays: 1e6}}, []string{record, holidays}},
		"fit":      {[]array.Life{array.FittedWeibull{Shape: 1.1, Scale: 5e5}}, []string{record, holidays}},
		"all": {[]array.Life{array.FittedWeibull{}, array.FieldRecord{}, array.RateByYear{}, array.ConstantRate{}, array.WeibullLife{}, array.ConstantRate{}},
			[]string{years, sheet, weibull, record, holidays}},
	} {
		var choices []array.Choice
		for _, life := range c.lives {
			choices = append(choices, array.Choice{Drive: array.Drive{Life: life}, Care: array.Care{Notice: array.Fixed{}, Response: open, Restock: open}})
		}
		var got []string
		for _, text := range Cautions(array.Site{ServiceLife: 43800}, choices, false) {
			for _, key := range []string{sheet, weibull, years, record, holidays} {
				if strings.Contains(text, key) {
					got = append(got, key)
				}
			}
		}
		if strings.Join(got, "; ") != strings.Join(c.want, "; ") {
			t.Errorf("%s: cautions %q, want %q", name, got, c.want)
		}
	}
}

// A part of the goal that nothing can be held against is said.
func TestCautionsOfTheGoal(t *testing.T) {
	t.Parallel()
	const budget, clips = "no price of any drive", "no cameras, so nothing"
	priced, free := array.Choice{Drive: array.Drive{Price: 290}}, array.Choice{Drive: array.Drive{Price: math.NaN()}}
	for _, c := range []struct {
		goal    *array.Goal
		choice  array.Choice
		cameras []array.Cameras
		want    []bool // of budget and clips
	}{
		{nil, free, nil, []bool{false, false}},
		{&array.Goal{LossChance: 0.1}, free, nil, []bool{false, false}},
		{&array.Goal{LossChance: 0.1, MissingClip: 0.1, Budget: 9000}, free, nil, []bool{true, true}},
		{&array.Goal{LossChance: 0.1, MissingClip: 0.1, Budget: 9000}, priced, []array.Cameras{{Count: 1}}, []bool{false, false}},
	} {
		all := strings.Join(Cautions(array.Site{ServiceLife: 43800, Goal: c.goal, Cameras: c.cameras}, []array.Choice{c.choice}, false), "\n")
		if strings.Contains(all, budget) != c.want[0] || strings.Contains(all, clips) != c.want[1] {
			t.Errorf("%+v: %s", c.goal, all)
		}
	}
}
