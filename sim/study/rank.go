package study

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sweep"
)

// Rank moves every uncertain input of a site from its low to its high, the others
// staying at their likely value, and returns what that does to each choice. If
// thorough, it works out shares of variance too. Errors are those of [Vary].
//
// With a fixed number of blocks ([engine.Options.Blocks]) every input is moved for so many,
// and that can be divided, as that of Vary can; and the choices of which shares of variance are
// worked out, each as ever.
func Rank(ctx context.Context, a Request, thorough bool) (Ranking, error) {
	inputs := a.Source.Inputs()
	if err := checkPoints(len(a.Choices), 2*len(inputs)+1); err != nil {
		return Ranking{}, err
	}
	own := a.Source.File()
	out := Ranking{Site: own.Site, Seed: a.Options.Seed, Accuracy: a.Options.Accuracy, Thorough: thorough, Assumptions: own.Assumptions}
	var settings [][]axis.Setting
	for _, in := range inputs {
		settings = append(settings, []axis.Setting{in.Axis.Set(in.Low)}, []axis.Setting{in.Axis.Set(in.High)})
	}
	files, err := readings(a.Source, settings)
	if err != nil {
		return Ranking{}, err
	}
	opt := a.Options
	const first = 0.1 // of the work, where shares are worked out too
	if thorough {
		opt.Progress = engine.PartOf(opt.Progress, 0, first)
	}
	var points []sweep.Point
	for _, c := range a.Choices {
		points = append(points, sweep.Point{Site: own.Site, Choice: own.Site.Choices[c]})
		for _, f := range files {
			points = append(points, sweep.Point{Site: f.Site, Choice: f.Site.Choices[c]})
		}
	}
	series, err := sweep.Run(ctx, points, opt)
	if errors.Is(err, engine.ErrPart) {
		if other := a.rankPart(ctx, inputs, files, thorough); other != nil {
			return Ranking{}, other
		}
	}
	if err != nil {
		return Ranking{}, err
	}
	for k, c := range a.Choices {
		from := k * (1 + len(files))
		choice, bearing, err := ranked(series, from, own.Site.Choices[c].Label, inputs, files, c)
		if err != nil {
			return Ranking{}, err
		}
		choice.Choice = own.Site.Choices[c]
		if thorough {
			step := (1 - first) / float64(len(a.Choices))
			done := engine.PartOf(a.Options.Progress, first+step*float64(k), first+step*float64(k+1))
			note, err := a.sharesOf(ctx, k, &choice, bearing, done)
			if err != nil {
				return Ranking{}, err
			}
			if note != "" {
				out.Notes = append(out.Notes, note)
			}
		}
		slices.SortStableFunc(choice.Inputs, func(x, y RankedInput) int { return -cmp.Compare(x.Swing.Value, y.Swing.Value) })
		out.Choices = append(out.Choices, choice)
	}
	if thorough {
		out.Notes = append(out.Notes, lawsNote)
		if slices.ContainsFunc(inputs, func(in axis.Input) bool { return !in.Axis.Numeric }) {
			out.Notes = append(out.Notes, wordsNote)
		}
	}
	return out, nil
}

// ranked returns a choice with the inputs that bear on it, and which those are. Its
// points begin at from in the series: as likely, then low and high of each input.
func ranked(series *sweep.Series, from int, label string, inputs []axis.Input, files []*site.File, c int) (RankedChoice, []axis.Input, error) {
	as := series.Result(from)
	if as.Err != nil {
		return RankedChoice{}, nil, as.Err
	}
	out := RankedChoice{Likely: as.LossChance}
	var bearing []axis.Input
	for i, in := range inputs {
		low, high := from+1+2*i, from+2+2*i
		x, y := series.Result(low), series.Result(high)
		for j, p := range []sweep.Result{x, y} {
			if err := unfitEnd(in, files[2*i+j], c, label); err != nil {
				return out, nil, err
			}
			if p.Err != nil {
				return out, nil, p.Err
			}
		}
		if same(series.Ratio(low, series, from)) && same(series.Ratio(high, series, from)) {
			continue // does not bear on this choice
		}
		swing := series.Ratio(high, series, low).Estimate
		if !(swing.Value >= 1) { // NaN too: nothing is lost at the low end
			swing = series.Ratio(low, series, high).Estimate
		}
		if math.IsNaN(swing.Value) {
			swing = estimate.Estimate{Value: math.Inf(1), Low: 1, High: math.Inf(1)}
		}
		bearing = append(bearing, in)
		out.Inputs = append(out.Inputs, RankedInput{
			Path: in.Axis.Path, Called: in.Axis.Called(), Low: in.Low.Text, Likely: in.Likely.Text, High: in.High.Text, Given: in.Given, Range: in.Range,
			AtLow: x.LossChance, AtHigh: y.LossChance, Swing: swing,
		})
	}
	return out, bearing, nil
}

// unfitEnd returns an error where a choice cannot be built at an end of an input's range.
func unfitEnd(in axis.Input, f *site.File, c int, label string) error {
	if why, unfit := f.Unfit[c]; unfit {
		return &LimitError{fmt.Sprintf("a range of %s at an end of which %q cannot be built: %s", in.Axis.Path, label, why), "a range within what fits"}
	}
	return nil
}

// same reports whether two points are the same system.
func same(r sweep.Ratio) bool { return r.Value == 1 && r.Low == 1 && r.High == 1 }
