package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// One input with more values than are shown, a choice with nothing at some of
// them, a value that was solved for; and two inputs.
func TestVary(t *testing.T) {
	s, outcomes := sample()
	v := study.Sweep{Site: s, Against: "cheap", Notes: []string{"A note."}, Inputs: []study.Input{{
		Path: "drives.12 TB with a name.life.afr", Unit: "%", Texts: []string{"1 %", "2 %", "3 %", "4 %"}, Values: []float64{1, 2, 3, 4}, Own: 2, OwnText: "not given: default 2 %",
	}}}
	for i, o := range outcomes {
		c := study.Curve{Choice: o.Choice, Own: likely}
		for j := range 4 {
			p := study.Point{Drives: 8, Meets: i > 0, Loss: likely, ToOwn: twice, Against: twice}
			switch {
			case i == 1 && j > 1:
				p = study.Point{Drives: 14, Absent: "14 drives, and the recorder has 12 bays", Loss: unknown, ToOwn: unknown, Against: unknown}
			case i == 2:
				p.Loss, p.ToOwn, p.Against, p.Warnings = rare, estimate.Estimate{Value: 1, Low: 1, High: 1}, unknown, []string{"few samples"}
			}
			c.Points = append(c.Points, p)
		}
		v.Curves = append(v.Curves, c)
	}
	v.BreakEven = &study.BreakEven{Goal: "a loss chance of 1 in 10\u202f000 within 5 years", Rows: []study.BreakEvenRow{
		{Choice: outcomes[0].Choice, Value: twice, Text: "2.02 %"},
		{Choice: outcomes[1].Choice, Value: unknown, Words: "safer over the whole range: 1 in 20\u202f000 at 1 %, 1 in 11\u202f000 at 4 %"},
	}}
	one := show(t, func(b *strings.Builder) error { return Vary(b, v) })
	v.BreakEven.Goal, v.Against, v.Notes = `as safe as "cheap" as the site file has it`, "", nil
	v.Inputs = append(v.Inputs, study.Input{Path: "choices.*.care.unreadable", Texts: []string{"skip", "stop"}, Own: math.NaN(), OwnText: "differs from choice to choice"})
	for i := range v.Curves {
		v.Curves[i].Points = append(v.Curves[i].Points, v.Curves[i].Points...)
	}
	narrowGolden(t, "vary.txt", one+"\n----\n\n"+show(t, func(b *strings.Builder) error { return Vary(b, v) }))
}
