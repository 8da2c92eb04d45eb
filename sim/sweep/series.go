package sweep

import (
	"context"
	"math"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// Point is a choice of a site at one setting.
type Point struct {
	Site   array.Site
	Choice array.Choice
}

// Series is points that were simulated side by side from the same random streams.
// Make it with [Run].
type Series struct {
	opt           engine.Options
	members       []*member // one a point; the same one for points that are the same system
	unique        []*member
	curves        []*curve
	byFingerprint map[fingerprint][]*member // unique ones by what tells them apart
	budget        int                       // blocks, of each point
	lives         int                       // of a block: all but where the budget is less than one
	work          int64                     // units, of each point
	share         float64
	builder       model.Builder
}

// Result is what a series says of one point: the figures of [sim.Result] of the
// same names, without the curve and the distributions.
type Result struct {
	LossChance    estimate.Estimate
	AnyLossChance estimate.Estimate
	LossEvents    estimate.Estimate

	MissingClip           estimate.Estimate // needs cameras
	CameraDaysLostPerYear estimate.Estimate // needs cameras

	UnprotectedHoursPerYear estimate.Estimate
	RebuildsPerYear         estimate.Estimate
	DrivesReplaced          estimate.Estimate

	HasCameras       bool
	Trials           int
	StoppedBy        engine.StoppedBy
	EffectiveSamples float64
	LargestShare     float64
	Warnings         []string

	// Err is why there are no figures: an [engine.BusyError], or the error of a
	// layout that does not fit its drives. All estimates are NaN then.
	Err error
}

// Run simulates the points side by side. Points that are the same system are
// simulated once.
//
// All points of a choice, known by its label, run the same number of trials, in
// rounds, until each is as accurate as was asked for and can be trusted, with three
// exceptions:
//
//   - A point that needs no more goes along with the slower ones until it has four
//     times the trials that it needed; they go on without it.
//   - No point runs more than opt.MaxTrials, which may be less than a block.
//   - No point takes more work than opt.MaxWork, or where that is 0 its part of the
//     work that a [sim.Run] may take, or about a second where that is more. One that would need more is left as it is
//     by then, with StoppedBy [engine.ByBudget]; one that cannot even end 128 lives
//     has an [engine.BusyError].
//
// With opt.Blocks every point has so many, and none of this holds. Points, systems that
// differ, are then dealt in turn to the shares of opt.Ledger; the error of a share is
// [engine.ErrPart] once it is done, or a [TooManyError].
//
// opt.Progress is called from time to time with the trials of all points, the
// accuracy of the least accurate and the share of the work expected in all, which
// never falls.
//
// A fault of one point is its Err. Any other error of Run is that of the context, or of a
// ledger that lacks a point.
func Run(ctx context.Context, points []Point, opt engine.Options) (*Series, error) {
	s := newSeries(opt)
	for _, p := range points {
		s.add(p)
	}
	if err := s.run(ctx); err != nil {
		return nil, err
	}
	return s, nil
}

// newSeries returns a series without points.
func newSeries(opt engine.Options) *Series {
	lives := int(min(opt.MaxTrials, engine.TrialsPerBlock)) / model.Strata * model.Strata
	return &Series{opt: opt, byFingerprint: map[fingerprint][]*member{}, budget: opt.MaxBlocks(), lives: max(lives, model.Strata)}
}

// add adds a point: a new system, or one that is there already.
func (s *Series) add(p Point) {
	sys, err := s.builder.System(p.Site, p.Choice)
	if err != nil {
		s.members = append(s.members, &member{err: err})
		return
	}
	s.addSystem(p.Choice.Label, sys)
}

// Result returns the figures of point i, counted from 0 in the order given to [Run].
func (s *Series) Result(i int) Result {
	m := s.members[i]
	if m.err != nil {
		none := estimate.None()
		return Result{
			LossChance: none, AnyLossChance: none, LossEvents: none, MissingClip: none, CameraDaysLostPerYear: none,
			UnprotectedHoursPerYear: none, RebuildsPerYear: none, DrivesReplaced: none, Err: m.err,
		}
	}
	r := sim.Figures(m.sys, &m.sums)
	p := Result{
		LossChance: r.LossChance, AnyLossChance: r.AnyLossChance, LossEvents: r.LossEvents,
		MissingClip: r.MissingClip, CameraDaysLostPerYear: r.CameraDaysLostPerYear,
		UnprotectedHoursPerYear: r.UnprotectedHoursPerYear, RebuildsPerYear: r.RebuildsPerYear, DrivesReplaced: r.DrivesReplaced,
		HasCameras: r.HasCameras, Trials: r.Trials, StoppedBy: engine.ByBudget,
		EffectiveSamples: r.EffectiveSamples, LargestShare: r.LargestShare, Warnings: r.Warnings,
	}
	if m.converged(s.opt.Accuracy) {
		p.StoppedBy = engine.ByAccuracy
	}
	if !s.opt.Plain && math.IsInf(m.halfWidth(), 1) {
		p.Warnings = append(p.Warnings, "no loss was seen: the loss chance is not 0, but too rare for so few trials")
	}
	return p
}
