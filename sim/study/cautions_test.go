package study

import (
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
