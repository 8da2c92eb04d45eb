package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/history"
	"arrayodds/sim/study"
	"arrayodds/sim/trace"
)

var (
	unknown = estimate.None()
	likely  = estimate.Estimate{Value: 4.2e-4, Low: 4.0e-4, High: 4.4e-4, RelativeError: 0.024}
	rare    = estimate.Estimate{Value: 1.3e-9, Low: 1.25e-9, High: 1.35e-9, RelativeError: 0.02}
	twice   = estimate.Estimate{Value: 2.02, Low: 1.97, High: 2.07}
)

func show(t *testing.T, write func(*strings.Builder) error) string {
	t.Helper()
	var b strings.Builder
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// One input with more values than are shown, a choice with nothing at some of
// them, a value that was solved for; and two inputs.
func TestVaried(t *testing.T) {
	s, outcomes := made()
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
	one := show(t, func(b *strings.Builder) error { return Varied(b, v) })
	v.BreakEven.Goal, v.Against, v.Notes = `as safe as "cheap" as the site file has it`, "", nil
	v.Inputs = append(v.Inputs, study.Input{Path: "care.unreadable", Texts: []string{"skip", "stop"}, Own: math.NaN(), OwnText: "differs"})
	for i := range v.Curves {
		v.Curves[i].Points = append(v.Curves[i].Points, v.Curves[i].Points...)
	}
	golden(t, "varied.txt", one+"\n----\n\n"+show(t, func(b *strings.Builder) error { return Varied(b, v) }))
}

func TestMoved(t *testing.T) {
	s, outcomes := made()
	share := estimate.Estimate{Value: 0.42, Low: 0.37, High: 0.48}
	r := study.Ranking{Site: s, Thorough: true, Notes: []string{"Another note."}}
	for i, o := range outcomes {
		c := study.RankedChoice{Choice: o.Choice, Likely: likely}
		for j := range 2 + 5*i {
			in := study.RankedInput{Path: "care.response", Low: "lognormal: half within 36 h, nine in ten within 96 h", Likely: "x", High: "×2", Given: j == 0, AtLow: rare, AtHigh: likely,
				Swing: estimate.Estimate{Value: math.Inf(1), Low: 1, High: math.Inf(1)}}
			if j > 0 {
				in.Swing, in.First, in.Total = twice, &share, &share
			}
			c.Inputs = append(c.Inputs, in)
		}
		r.Choices = append(r.Choices, c)
	}
	golden(t, "moved.txt", show(t, func(b *strings.Builder) error { return Moved(b, r) }))
}

func TestReplayed(t *testing.T) {
	s, outcomes := made()
	r := study.Replay{Site: s, Choice: outcomes[0].Choice, Loss: likely, OnlyLosses: true, Lives: []trace.Life{
		{FirstLoss: math.NaN()},
		{Lost: true, FirstLoss: 24 * 811.5, Destroyed: 24 * 12345, Events: []history.Event{{Kind: history.Fails}, {Kind: history.Fails}, {Kind: history.Restored}, {Kind: history.MeetsDefects, Count: 2}, {Kind: history.MeetsSector}, {Kind: history.LosesSet}, {Kind: history.LosesSet}}},
	}}
	some := show(t, func(b *strings.Builder) error { return Replayed(b, r) })
	r.Site.Cameras, r.OnlyLosses, r.Lives = nil, false, r.Lives[:1]
	golden(t, "replayed.txt", some+"\n----\n\n"+show(t, func(b *strings.Builder) error { return Replayed(b, r) }))
}

func TestAsked(t *testing.T) {
	s, outcomes := made()
	got := show(t, func(b *strings.Builder) error {
		return Asked(b, study.Lesson{Site: s, Choice: outcomes[0].Choice, Questions: []study.Question{{Title: "Larger drives", Ask: "What then?"}}})
	})
	for _, want := range []string{"1  Larger drives. What then?", "in the page"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
}
