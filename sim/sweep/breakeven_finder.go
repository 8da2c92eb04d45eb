package sweep

import (
	"context"
	"math"
	"slices"

	"arrayodds/array/elementary"
	"arrayodds/sim/engine"
)

const (
	gridValues   = 11  // from the low end to the high
	gridAccuracy = 0.1 // half-width of a loss chance ÷ the loss chance
	gridBlocks   = 256 // of a value, at the most
	// probeWork is the work that one value may take, some ten seconds.
	probeWork = 1e8
	// certain is by how many standard errors a value must be off the goal for its
	// side to count as known.
	certain = 2.5
)

// finder looks for a break-even. It moves along u: the logarithm of the input
// where that moves by ratio, else the input itself.
type finder struct {
	at       func(float64) (Point, error)
	low, top float64 // of u
	byRatio  bool
	opt      engine.Options
	series   *Series // of everything that was tried
	pool     *pool
	target   float64 // cloglog of the loss chance to be met, where the goal is a chance
	chance   float64 // the same chance itself
	other    *member // whose loss chance is to be met, else nil
	blocks   int     // that values are tried with now
	share    float64 // of the work, for Progress
}

// probe is one value that was tried.
type probe struct {
	u float64
	*member
}

// newFinder returns a finder that has tried nothing yet.
func newFinder(at func(float64) (Point, error), low, high float64, byRatio bool, goal Goal, opt engine.Options) (*finder, error) {
	quiet := opt
	quiet.Progress, quiet.Plain = nil, false
	f := &finder{at: at, low: low, top: high, byRatio: byRatio, opt: opt, series: newSeries(quiet), target: cloglog(goal.Chance), chance: goal.Chance}
	if byRatio {
		f.low, f.top = math.Log(low), math.Log(high)
	}
	f.series.work = probeWork
	f.pool = newPool(f.series)
	if goal.Other != nil {
		f.series.add(*goal.Other)
		if f.other = f.series.members[0]; f.other.err != nil {
			return nil, f.other.err
		}
	}
	return f, nil
}

// value returns the input at u.
func (f *finder) value(u float64) float64 {
	if f.byRatio {
		return elementary.Exp(u)
	}
	return u
}

// probe returns a value that is ready to be simulated.
func (f *finder) probe(u float64) (probe, error) {
	p, err := f.at(f.value(u))
	if err != nil {
		return probe{}, err
	}
	f.series.add(p)
	m := f.series.members[len(f.series.members)-1]
	return probe{u, m}, nil
}

// run brings values, and what they are held against, to so many blocks.
func (f *finder) run(ctx context.Context, blocks int, probes ...probe) error {
	var list []*member // each once: values that make no difference are one system
	if f.other != nil {
		list = append(list, f.other)
	}
	for _, p := range probes {
		if !slices.Contains(list, p.member) {
			list = append(list, p.member)
		}
	}
	return f.pool.do(ctx, f.series.piecesOf(list, blocks))
}

// cloglog returns log(−log(1 − p)), −Inf at 0. Estimates may reach 1 and more; they are
// held just below.
func cloglog(p float64) float64 { return math.Log(-math.Log1p(-math.Min(p, 1-1e-9))) }

// off returns by how much a value misses the goal, in the cloglog of the loss
// chance, and what each bundle adds to that.
func (f *finder) off(m *member) (by float64, bundle [bundles]float64) {
	p := m.chance()
	if p == 0 {
		return math.Inf(-1), bundle
	}
	by = cloglog(p) - f.target
	addInfluence(&bundle, m, 1)
	if f.other != nil {
		by = cloglog(p) - cloglog(f.other.chance())
		addInfluence(&bundle, f.other, -1)
	}
	return by, bundle
}

// addInfluence adds to each bundle its deviation as far as it moves the cloglog of
// the loss chance: d log(−log(1 − p)) ÷ d log p is p ÷ ((1 − p)·−log(1 − p)).
func addInfluence(into *[bundles]float64, m *member, sign float64) {
	p := math.Min(m.chance(), 1-1e-9)
	sign *= p / ((1 - p) * -math.Log1p(-p))
	for k, d := range m.deviations() {
		into[k] += sign * d
	}
}

// side returns the sign of what a value misses the goal by, 0 where it is not certain.
func (f *finder) side(m *member) int {
	by, bundle := f.off(m)
	if math.Abs(by) <= certain*errorOf(bundle[:]) {
		return 0
	}
	return sign(by)
}

// sign returns −1, 0 or 1.
func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// report tells Options.Progress the share of the work that is done, which never
// falls.
func (f *finder) report(share float64) {
	if f.opt.Progress == nil {
		return
	}
	f.share = math.Max(f.share, share)
	f.opt.Progress(engine.Progress{Trials: f.trials(), Accuracy: math.Inf(1), Share: f.share})
}

// trials returns the trials of all values that were tried.
func (f *finder) trials() (n int) {
	for _, m := range f.series.unique {
		n += int(m.sums.N)
	}
	return n
}
