package now

import (
	"context"
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/sweep"
)

// Ask answers for an array as it stands. The errors are those of [engine.Simulate], with the
// label of the choice, and of a layout that does not fit its drives.
func Ask(ctx context.Context, q Request) (Result, error) {
	r, err := Glance(ctx, q)
	if err != nil || r.Lost() || len(r.State.Down()) == 0 {
		return r, err
	}
	if err := r.act(ctx, q, false); err != nil {
		return r, err
	}
	r.say()
	return r, nil
}

// Brief is the answer of [Ask] for one array among many: the chances, and each thing that
// can be done by itself, with nothing hour by hour, no copies, and not when all drives run
// again. The builder is that of arrays that are asked for one after the other.
func Brief(ctx context.Context, q Request, b *model.Builder) (Result, error) {
	r, sys, err := begin(q, b)
	if err != nil || sys == nil {
		return r, err
	}
	if err := r.chances30(ctx, sys, q.Options); err != nil {
		return r, q.blame(err)
	}
	if len(r.State.Down()) > 0 {
		if err := r.act(ctx, q, true); err != nil {
			return r, err
		}
	}
	r.say()
	return r, nil
}

// Glance is the first answer of [Ask]: all but what can be done.
func Glance(ctx context.Context, q Request) (Result, error) {
	r, sys, err := begin(q, new(model.Builder))
	if err != nil || sys == nil {
		return r, err
	}
	if err := r.simulate(ctx, sys, q.Options); err != nil {
		return r, q.blame(err)
	}
	r.say()
	return r, nil
}

// begin returns the answer before anything is simulated, and what is to be: nil where the
// array is lost, which the answer says.
func begin(q Request, b *model.Builder) (Result, *model.System, error) {
	r := Result{
		Site: q.Site, Choice: q.Choice, State: q.State, Seed: q.Options.Seed, Accuracy: q.Options.Accuracy,
		Assumptions: q.Assumptions,
	}
	z, err := q.Site.Size(q.Choice)
	if err != nil {
		return r, nil, err
	}
	r.Sizing, r.RebuildHours = z, z.RebuildRun
	r.Tolerance, r.Down = z.Shape.Tolerance, q.State.MostDown(z.Shape)
	if r.Lost() {
		r.say()
		return r, nil, nil
	}
	sys, err := systemOf(b, q, Month)
	return r, sys, err
}

// blame puts the label of the choice into an error that is its own.
func (q Request) blame(err error) error {
	if busy, ok := err.(*engine.BusyError); ok {
		busy.Choice = q.Choice.Label
	}
	return err
}

// systemOf returns the system of a question over so many hours.
func systemOf(b *model.Builder, q Request, hours float64) (*model.System, error) {
	site := q.Site
	site.ServiceLife = hours
	sys, err := b.System(site, q.Choice)
	if err != nil {
		return nil, err
	}
	sys.Begin(q.State)
	return sys, nil
}

// chances30 fills in the chances within 30 days.
func (r *Result) chances30(ctx context.Context, sys *model.System, opt engine.Options) error {
	opt.LossOnly = true
	sums, stopped, err := engine.Simulate(ctx, sys, opt)
	if err != nil {
		return err
	}
	r.take(sys, sums, model.NewFit(sums), stopped)
	r.Exact = exactly(sys)
	return nil
}

// take takes the chances from sums.
func (r *Result) take(sys *model.System, sums *model.Sums, fit *model.Fit, stopped engine.StoppedBy) {
	r.Loss = engine.LossChance(sys, sums, fit)
	r.BeforeWhole = chanceOf(sums, fit, model.LossBeforeWhole)
	r.Trials, r.StoppedBy, r.Warnings = int(sums.N), stopped, engine.Warnings(sums)
}

// simulate fills in the chances, hour by hour, and when all drives run again.
func (r *Result) simulate(ctx context.Context, sys *model.System, opt engine.Options) error {
	hourly := *sys
	hourly.StepHours = 1
	opt.LossOnly = true
	sums, stopped, err := engine.Simulate(ctx, &hourly, opt)
	if err != nil {
		return err
	}
	fit := model.NewFit(sums)
	r.take(sys, sums, fit, stopped)
	for i := range sums.Steps {
		e := fit.Step(i).AtMostOne()
		if sums.Steps[i] == 0 {
			e = unseen(sums)
		}
		r.Curve = append(r.Curve, Point{Hours: float64(i + 1), Loss: e})
	}
	r.Exact = exactly(sys)
	if len(r.State.Down()) > 0 {
		r.Whole, err = wholeAfter(ctx, sys, opt)
	}
	return err
}

// act simulates what can be done, from common streams; in short, each thing alone.
func (r *Result) act(ctx context.Context, q Request, short bool) error {
	b := new(model.Builder)
	base, err := systemOf(b, q, Month)
	if err != nil {
		return err
	}
	systems := []*model.System{base}
	add := func(q Request, hours float64, change func(*model.System)) (int, error) {
		sys, err := systemOf(b, q, hours)
		if err != nil {
			return 0, err
		}
		if change != nil {
			change(sys)
		}
		systems = append(systems, sys)
		return len(systems) - 1, nil
	}
	things := things(q, r)
	places := make([]int, len(things))
	together, faster := q, 0
	for i, t := range things {
		if places[i], err = add(t.apply(q), Month, t.system); err != nil {
			return err
		}
		if t.faster {
			together = t.apply(together)
			faster++
		}
	}
	all := 0
	if faster > 1 && !short {
		if all, err = add(together, Month, nil); err != nil {
			return err
		}
	}
	var copies []copied
	if !short {
		copies = copiesOf(q, r.Sizing)
	}
	type pair struct{ during, after int }
	var pairs []pair
	for _, c := range copies {
		var p pair
		slower := c.rebuild
		if p.during, err = add(q, math.Min(c.Hours, Month), func(s *model.System) { s.Repair.Rebuild = slower }); err != nil {
			return err
		}
		longer := r.RebuildHours + c.Delay
		if p.after, err = add(q, Month, func(s *model.System) { s.Repair.Rebuild = longer }); err != nil {
			return err
		}
		pairs = append(pairs, p)
	}
	opt := q.Options
	opt.LossOnly = true
	series, err := sweep.RunSystems(ctx, q.Choice.Label, systems, opt)
	if err != nil {
		return err
	}
	rebuildOf := func(q Request) float64 {
		z, err := q.Site.Size(q.Choice)
		if err != nil {
			return math.NaN()
		}
		return z.RebuildRun
	}
	action := func(name, what string, at int, q Request) Action {
		ratio := series.Ratio(at, series, 0).Estimate
		return Action{Name: name, What: what, Loss: r.changed(ratio, series.Result(at).LossChance), Ratio: ratio, RebuildHours: rebuildOf(q)}
	}
	for i, t := range things {
		a := action(t.name, t.what, places[i], t.apply(q))
		a.OfRecording = t.recording
		r.Actions = append(r.Actions, a)
	}
	if all > 0 {
		a := action("All of these that speed the rebuild up, together", "", all, together)
		r.Together = &a
	}
	for i, c := range copies {
		c.Ratio = series.Ratio(pairs[i].during, series, 0).Estimate
		c.Loss = r.changed(c.Ratio, series.Result(pairs[i].during).LossChance)
		c.Other = series.Ratio(pairs[i].after, series, 0).Estimate
		r.Copies = append(r.Copies, c.Copy)
	}
	r.sort()
	return nil
}

// changed returns the loss chance that is told beside that of the array left alone: that
// one times a ratio, so that the two go together; own where there is no ratio.
func (r *Result) changed(ratio, own estimate.Estimate) estimate.Estimate {
	if !(ratio.Value > 0) || math.IsInf(ratio.High, 1) || !(r.Loss.Value > 0) {
		return own
	}
	if ratio.Low == ratio.High {
		return r.Loss.Times(ratio.Value).AtMostOne()
	}
	e := estimate.Estimate{Value: r.Loss.Value * ratio.Value, RelativeError: math.Hypot(r.Loss.RelativeError, ratio.RelativeError)}
	by := func(end func(estimate.Estimate) float64) float64 {
		return math.Hypot(math.Log(end(r.Loss)/r.Loss.Value), math.Log(end(ratio)/ratio.Value))
	}
	e.High = e.Value * elementary.Exp(by(func(e estimate.Estimate) float64 { return e.High }))
	if r.Loss.Low > 0 && ratio.Low > 0 {
		e.Low = e.Value * elementary.Exp(-by(func(e estimate.Estimate) float64 { return e.Low }))
	}
	return e.AtMostOne()
}
