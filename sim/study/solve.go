package study

import (
	"context"
	"fmt"
	"strings"

	"arrayodds/array/site/axis"
	"arrayodds/array/unit"
	"arrayodds/sim/divide"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/sweep"
)

// Target is what a loss chance is to meet: one of the two.
type Target struct {
	Chance float64 // 0: the other
	As     int     // place of the choice that, as the site file has it, is to be as safe
}

// solve solves, choice by choice, for the value of a numeric input at which the
// target is met. It reads and simulates what it needs between the ends of the input.
func (v Variation) solve(ctx context.Context) (*BreakEven, error) {
	goal := *v.Target
	own := v.Source.File().Site
	years := own.ServiceLife / unit.HoursPerYear
	out := &BreakEven{Goal: fmt.Sprintf("a loss chance of %s within %s", figure.Chance(goal.Chance), figure.Years(years))}
	to := sweep.Goal{Chance: goal.Chance}
	if goal.Chance == 0 {
		out.Goal = fmt.Sprintf("as safe as %q as the site file has it", own.Choices[goal.As].Label)
		to = sweep.Goal{Other: &sweep.Point{Site: own, Choice: own.Choices[goal.As]}}
	}
	for k, c := range v.Choices {
		if goal.Chance == 0 && c == goal.As {
			continue
		}
		if v.Options.Ledger.Dividing() && !v.Options.Ledger.Share().Has(k) {
			continue
		}
		opt := v.Options.Undivided()
		n := float64(len(v.Choices))
		opt.Progress = engine.PartOf(opt.Progress, float64(k)/n, float64(k+1)/n)
		row, met, err := v.solved(ctx, k, to, opt)
		if err != nil {
			return nil, err
		}
		out.Rows = append(out.Rows, row)
		if met > 0 {
			out.Chance = met
		}
	}
	return out, nil
}

// solvedRow is what a part has of a choice that was solved for, as it is coded.
type solvedRow struct {
	Value       estimate.Estimate
	Text, Words string
	Met         float64
}

// solved returns the row of a choice, by its place in Choices, and the loss chance that was
// to be met: as another process found it, or solved for and kept for another.
func (v Variation) solved(ctx context.Context, k int, goal sweep.Goal, opt engine.Options) (BreakEvenRow, float64, error) {
	ledger, key, c := v.Options.Ledger, fmt.Sprint("break-even ", k), v.Choices[k]
	if ledger.Merging() {
		in, err := divide.One[solvedRow](ledger.Found(key), fmt.Sprintf("the value of choice %d", k))
		return BreakEvenRow{v.Source.File().Site.Choices[c], in.Value, in.Text, in.Words}, in.Met, err
	}
	row, met, err := v.breakEven(ctx, c, goal, opt)
	if err == nil && ledger.Dividing() {
		ledger.Keep(key, divide.Encode(solvedRow{row.Value, row.Text, row.Words, met}))
	}
	return row, met, err
}

// unfitValue is a value at which a choice cannot be built.
type unfitValue struct{ text, why string }

func (e *unfitValue) Error() string { return e.text + ": " + e.why }

// breakEven returns one choice's value, and the loss chance that was to be met; 0 if
// that is not known.
func (v Variation) breakEven(ctx context.Context, c int, goal sweep.Goal, opt engine.Options) (row BreakEvenRow, met float64, err error) {
	input := v.Axes[0]
	none := estimate.None()
	row = BreakEvenRow{Choice: v.Source.File().Site.Choices[c], Value: none}
	at := func(x float64) (sweep.Point, error) {
		set := []axis.Setting{input.Set(input.At(x))}
		if v.Resize {
			set = append(set, axis.ResizeAll())
		}
		f, err := v.Source.With(set...)
		if err != nil {
			return sweep.Point{}, err
		}
		if why, unfit := f.Unfit[c]; unfit {
			return sweep.Point{}, &unfitValue{input.At(x).Text, why}
		}
		return sweep.Point{Site: f.Site, Choice: f.Site.Choices[c]}, nil
	}
	low, high := input.Values[0], input.Values[len(input.Values)-1]
	b, err := sweep.FindBreakEven(ctx, at, low.Shown, high.Shown, input.Log, goal, opt)
	switch e := err.(type) {
	case nil:
	case *unfitValue:
		row.Words = "not solved for: at " + e.Error()
		return row, 0, nil
	case *engine.BusyError:
		row.Words = "not solved for: more happens in such a life than can be simulated"
		return row, 0, nil
	default:
		return row, 0, err
	}
	ends := fmt.Sprintf("%s at %s, %s at %s", figure.Odds(b.AtLow), low.Text, figure.Odds(b.AtHigh), high.Text)
	switch {
	case b.Found:
		row.Value = estimate.FromInterval(b.Value, b.Low, b.High)
		row.Text = valueText(input, row.Value)
		row.Words = sides(b) + ": " + ends
	case b.SaferEverywhere:
		row.Words = "safer over the whole range: " + ends
	case b.RiskierEverywhere:
		row.Words = "riskier over the whole range: " + ends
	case b.Flat:
		row.Words = "the input makes too little difference to say: " + ends
	default:
		row.Words = "no value is certain: " + ends
	}
	if b.Crossings > 1 {
		row.Words = fmt.Sprintf("met %d times; the first from the low end is given: %s", b.Crossings, ends)
	}
	for _, w := range b.Warnings {
		if row.Words != "" {
			row.Words += "; "
		}
		row.Words += w
	}
	return row, b.AtGoal.Value, nil
}

// sides says on which side of the value that was found a choice is safer.
func sides(b sweep.BreakEven) string {
	if b.AtLow.Value > b.AtHigh.Value {
		return "riskier than that below it, safer above"
	}
	return "safer than that below it, riskier above"
}

// valueText returns a value with its unit, to the digits that its interval supports.
func valueText(input *axis.Axis, e estimate.Estimate) string {
	n := figure.Number(e)
	switch input.Unit {
	case "x":
		return "×" + n
	case "bits":
		return "1 in " + n + " bits"
	}
	return strings.TrimSpace(n + " " + input.Unit)
}
