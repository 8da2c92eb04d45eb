package study

import (
	"context"
	"fmt"
	"math"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim/doubt"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sweep"
)

// Replicates is the number of replicates of the doubt: independent parts of it, each a
// few settings of all inputs, which differ by their random streams.
const Replicates = doubt.Replicates

// A Replicate is what one of the replicates of a comparison's doubt found. It is figures
// alone, so that replicates can be worked out apart and put together again.
type Replicate struct {
	Choices []AtSettings // by places in Outcomes; nothing of a choice that was not simulated
	LeftOut []Tried      // hazards left out, which the first replicate tries; nil in the others
}

// AtSettings is the chances of one choice at the settings of a replicate.
type AtSettings struct{ Loss, Missing Drawn }

// Drawn is one chance at the settings of a replicate. What is not known is NaN.
type Drawn struct {
	Likely        float64   // as entered, from the streams of the replicate
	Chance, Noise []float64 // at each setting, and the relative standard error of it ÷ Likely
}

// Tried is the chances with a hazard that the file leaves out, as [LeftOut] has them.
type Tried struct{ Chance, Factor []estimate.Estimate }

// RunReplicate works out one replicate of the doubt of a comparison, counted from 0, as
// [Compare] does. simulate gives the results of its choices, which say how many settings
// there are and how long each may take. In a plain run, and where nothing is drawn, it is
// empty.
func RunReplicate(ctx context.Context, asked Request, simulate Simulator, r int) (Replicate, error) {
	if r < 0 || r >= Replicates {
		return Replicate{}, fmt.Errorf("found replicate %d; right would be one from 0 to %d", r, Replicates-1)
	}
	progress := asked.Options.Progress
	asked.Options.Progress = nil
	c, err := asked.simulated(ctx, simulate)
	if err != nil || asked.Options.Plain {
		return Replicate{}, err
	}
	d := newDoubter(asked, &c)
	some, err := d.someBear()
	if err != nil {
		return Replicate{}, err
	}
	d.plan(some)
	if d.idle(r) {
		return Replicate{}, nil
	}
	return d.replicate(ctx, r, progress)
}

// idle reports whether there is nothing to be done in a replicate.
func (d *doubter) idle(r int) bool { return d.drawn == 0 && (r > 0 || len(d.whatIfs) == 0) }

// found returns a replicate: as it was given, or worked out.
func (d *doubter) found(ctx context.Context, r int) (Replicate, error) {
	if d.Replicate != nil {
		if given := d.Replicate(r); given != nil {
			return *given, d.fits(r, given)
		}
	}
	return d.replicate(ctx, r, engine.PartOf(d.Options.Progress, float64(r)/Replicates, float64(r+1)/Replicates))
}

// fits returns an error for a replicate of another comparison.
func (d *doubter) fits(r int, given *Replicate) error {
	misfit := fmt.Errorf("found replicate %d of another comparison; right would be one of the same site, choices and seed", r)
	if len(given.Choices) != len(d.Choices) {
		return misfit
	}
	for i, c := range given.Choices {
		settings := d.drawn
		if !d.into.Outcomes[i].Simulated() {
			settings = 0
		}
		for _, at := range []Drawn{c.Loss, c.Missing} {
			if len(at.Chance) != settings || len(at.Noise) != settings {
				return misfit
			}
		}
	}
	hazards := len(d.whatIfs)
	if r > 0 {
		hazards = 0
	}
	if len(given.LeftOut) != hazards {
		return misfit
	}
	for _, w := range given.LeftOut {
		if len(w.Chance) != len(d.Choices) || len(w.Factor) != len(d.Choices) {
			return misfit
		}
	}
	return nil
}

// replicate simulates every choice at the settings of a replicate, those with which plain
// lives serve, or fewer, apart from the others.
func (d *doubter) replicate(ctx context.Context, r int, progress func(engine.Progress)) (Replicate, error) {
	out := Replicate{Choices: make([]AtSettings, len(d.Choices))}
	var sets [][]axis.Setting
	for _, u := range d.designs[r] {
		sets = append(sets, axis.Draw(d.all, u))
	}
	if r == 0 {
		for _, w := range d.whatIfs {
			sets = append(sets, w.settings)
			out.LeftOut = append(out.LeftOut, Tried{none(len(d.Choices)), none(len(d.Choices))})
		}
	}
	files, err := readings(d.Source, sets)
	if err != nil {
		return Replicate{}, err
	}
	opt := d.Options.Undivided()
	opt.Seed ^= streamsApart * uint64(r+1)
	opt.Accuracy, opt.MaxWork = -1, d.work // each point has the same trials
	opt.Progress = progress
	own := d.Source.File()
	for _, by := range []struct {
		plain  bool
		trials int
	}{{false, fewTrials}, {false, moreTrials}, {true, fewTrials}, {true, moreTrials}} {
		var of []int // choices, by places in Outcomes
		for i := range d.Choices {
			if o := d.into.Outcomes[i]; o.Simulated() && o.Result.Plain == by.plain && d.trials(r, o.Result) == by.trials {
				of = append(of, i)
			}
		}
		points := make([]sweep.Point, 0, len(of)*(1+len(files)))
		for _, i := range of {
			c := d.Choices[i]
			points = append(points, sweep.Point{Site: own.Site, Choice: own.Site.Choices[c]})
			for _, f := range files {
				points = append(points, sweep.Point{Site: f.Site, Choice: f.Site.Choices[c]})
			}
		}
		if len(points) == 0 {
			continue
		}
		opt.Plain, opt.Branching, opt.MaxTrials = by.plain, !by.plain, int64(by.trials)
		series, err := sweep.Run(ctx, points, opt)
		if err != nil {
			return Replicate{}, err
		}
		for n, i := range of {
			likely := n * (1 + len(files))
			out.Choices[i] = d.atSettings(i, files[:d.drawn], series, likely)
			for k := range out.LeftOut {
				at := d.drawn + k
				out.LeftOut[k].Chance[i], out.LeftOut[k].Factor[i] = d.tried(i, files[at], series, likely, likely+1+at)
			}
		}
	}
	return out, nil
}

// none returns so many estimates that are not known.
func none(n int) []estimate.Estimate {
	all := make([]estimate.Estimate, n)
	for i := range all {
		all[i] = estimate.None()
	}
	return all
}

// atSettings returns the figures of one choice at the settings of a replicate, whose
// points come after that as entered.
func (d *doubter) atSettings(i int, files []*site.File, series *sweep.Series, likely int) (out AtSettings) {
	as := series.Result(likely)
	out.Loss.Likely, out.Missing.Likely = as.LossChance.Value, as.MissingClip.Value
	for k, f := range files {
		at := series.Result(likely + 1 + k)
		lost, gone := at.LossChance.Value, at.MissingClip.Value
		if _, unfit := f.Unfit[d.Choices[i]]; unfit {
			lost, gone = math.NaN(), math.NaN()
		}
		noise := at.LossChance.RelativeError
		if ratio := series.Ratio(likely+1+k, series, likely); ratio.Known() {
			noise = ratio.RelativeError
		}
		out.Loss.Chance, out.Loss.Noise = append(out.Loss.Chance, lost), append(out.Loss.Noise, noise)
		out.Missing.Chance, out.Missing.Noise = append(out.Missing.Chance, gone), append(out.Missing.Noise, at.MissingClip.RelativeError)
	}
	return out
}
