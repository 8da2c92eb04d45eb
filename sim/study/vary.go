package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sweep"
)

// Variation is one or two inputs over their values.
type Variation struct {
	Request
	Axes    []*axis.Axis // one or two
	Against int          // place of the choice that the others are held against; −1: none
	Resize  bool         // every choice gets the drives that hold the demand, at every value
	Target  *Target      // what the first of the axes is solved for; nil: nothing
}

// Vary simulates every choice at every value, or pair of values, and solves for the
// target where there is one. An error is of type [site.Errors] where a value cannot
// be, of type [LimitError], or the context's.
//
// With a fixed number of blocks ([engine.Options.Blocks]) every value has so many, and what
// is to be simulated can be divided, also the choices that are solved for: the error of a
// share is [engine.ErrPart] once it is done.
func Vary(ctx context.Context, v Variation) (Sweep, error) {
	progress := v.Options.Progress
	if v.Target != nil {
		v.Options.Progress = engine.PartOf(progress, 0, 0.5)
	}
	out, err := v.curves(ctx)
	if errors.Is(err, engine.ErrPart) && v.Target != nil { // the other part of the share
		if _, other := v.solve(ctx); other != nil {
			return Sweep{}, other
		}
	}
	if err != nil || v.Target == nil {
		return out, err
	}
	v.Options.Progress = engine.PartOf(progress, 0.5, 1)
	out.BreakEven, err = v.solve(ctx)
	return out, err
}

// curves simulates every choice at every value, or pair of values.
func (v Variation) curves(ctx context.Context) (Sweep, error) {
	settings := v.settings()
	if len(settings) > MostValues {
		return Sweep{}, &LimitError{fmt.Sprintf("%d pairs of values", len(settings)), fmt.Sprintf("at most %d", MostValues)}
	}
	if err := checkPoints(len(v.Choices), len(settings)+1); err != nil {
		return Sweep{}, err
	}
	files, err := readings(v.Source, settings)
	if err != nil {
		return Sweep{}, err
	}
	out := Sweep{
		Site: v.Source.File().Site, Seed: v.Options.Seed, Accuracy: v.Options.Accuracy,
		Assumptions: v.Source.File().Assumptions, Notes: v.notes(),
	}
	for _, a := range v.Axes {
		out.Inputs = append(out.Inputs, inputOf(a))
	}
	if err := v.simulate(ctx, &out, files); err != nil {
		return Sweep{}, err
	}
	out.Notes = append(out.Notes, out.regrouped()...)
	return out, nil
}

// settings returns those of every value, or pair of values, the first input's values
// running fastest.
func (v Variation) settings() (all [][]axis.Setting) {
	var more []axis.Setting
	switch {
	case v.Resize:
		more = append(more, axis.ResizeAll())
	case v.resizes():
		more = append(more, axis.Resize())
	}
	first := v.Axes[0]
	if len(v.Axes) == 1 {
		for _, x := range first.Values {
			all = append(all, append([]axis.Setting{first.Set(x)}, more...))
		}
		return all
	}
	for _, y := range v.Axes[1].Values {
		for _, x := range first.Values {
			all = append(all, append([]axis.Setting{first.Set(x), v.Axes[1].Set(y)}, more...))
		}
	}
	return all
}

func (v Variation) resizes() bool {
	for _, a := range v.Axes {
		if a.Resizes {
			return true
		}
	}
	return false
}

func (v Variation) notes() (notes []string) {
	if v.Resize || v.resizes() {
		notes = append(notes, "At every value the choices have the fewest drives that hold the footage, hot spares as they are; a choice keeps its label whatever it becomes.")
	}
	for _, a := range v.Axes {
		if c := a.Caution(); c != "" && !slices.Contains(notes, c) {
			notes = append(notes, c)
		}
	}
	return notes
}

func inputOf(a *axis.Axis) Input {
	in := Input{Path: a.Path, Called: a.Called(), Unit: a.Unit, Log: a.Log, Own: a.Own, OwnText: a.OwnText}
	for _, x := range a.Values {
		in.Texts = append(in.Texts, x.Text)
		if a.Numeric {
			in.Values = append(in.Values, x.Shown)
		}
	}
	return in
}

// simulate fills in the curves: of each choice the point of the site file first,
// then all values.
func (v Variation) simulate(ctx context.Context, out *Sweep, files []*site.File) error {
	own := v.Source.File()
	var points []sweep.Point
	place := make([][]int, len(v.Choices)) // of each choice's points in the series; −1: none
	for k, c := range v.Choices {
		points = append(points, sweep.Point{Site: own.Site, Choice: own.Site.Choices[c]})
		place[k] = append(place[k], len(points)-1)
		for _, f := range files {
			if _, unfit := f.Unfit[c]; unfit {
				place[k] = append(place[k], -1)
				continue
			}
			place[k] = append(place[k], len(points))
			points = append(points, sweep.Point{Site: f.Site, Choice: f.Site.Choices[c]})
		}
	}
	series, err := sweep.Run(ctx, points, v.Options)
	if err != nil {
		return err
	}
	against := []int(nil)
	for k, c := range v.Choices {
		if c == v.Against {
			against, out.Against = place[k], own.Site.Choices[c].Label
		}
	}
	for k, c := range v.Choices {
		as := series.Result(place[k][0])
		if as.Err != nil {
			return as.Err
		}
		curve := Curve{Choice: own.Site.Choices[c], Own: as.LossChance}
		for i, f := range files {
			p, err := pointOf(series, f, c, place[k][0], place[k][i+1])
			if err != nil {
				return err
			}
			if against != nil && c != v.Against && p.Absent == "" && against[i+1] >= 0 {
				p.Against = series.Ratio(place[k][i+1], series, against[i+1]).Estimate
			}
			curve.Points = append(curve.Points, p)
		}
		out.Curves = append(out.Curves, curve)
	}
	return nil
}

// pointOf returns choice c of a reading, which is the series' point at; −1: none.
func pointOf(series *sweep.Series, f *site.File, c, own, at int) (Point, error) {
	none := estimate.None()
	p := Point{Drives: f.Site.Choices[c].Drives, Groups: max(1, f.Site.Choices[c].Groups), Purchase: math.NaN(), CostOfLife: none, Loss: none, Clip: none, ToOwn: none, Apart: none, Against: none}
	if at < 0 {
		p.Absent = f.Unfit[c]
		return p, nil
	}
	z, err := f.Site.Size(f.Site.Choices[c])
	if err != nil {
		return p, err
	}
	p.Meets, p.Purchase = z.Meets, z.Purchase
	r := series.Result(at)
	if busy := (*engine.BusyError)(nil); errors.As(r.Err, &busy) {
		p.Absent = "more happens in such a life than can be simulated"
		return p, nil
	}
	if r.Err != nil {
		return p, r.Err
	}
	p.Loss, p.Warnings = r.LossChance, r.Warnings
	p.CostOfLife = Outcome{Choice: f.Site.Choices[c], Sizing: z, Result: sim.Result{DrivesReplaced: r.DrivesReplaced}}.CostOfLife(f.Site).Total()
	if r.HasCameras {
		p.Clip = r.MissingClip
	}
	ratio := series.Ratio(at, series, own)
	p.ToOwn, p.Apart = ratio.Estimate, ratio.Independent
	return p, nil
}
