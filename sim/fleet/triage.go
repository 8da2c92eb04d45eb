package fleet

import (
	"cmp"
	"context"
	"math"
	"slices"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/now"
)

const (
	// firstLives is how many lives of every array are simulated first: the least for an
	// interval to be what it says.
	firstLives = engine.FirstRound * engine.TrialsPerBlock
	// In a fleet of largeFleet arrays and more, quietLives and a half-width of quietAccuracy
	// are enough for those of which every drive runs: they are most of the fleet, and their
	// chances are small. The first failure of their lives is forced, so that half as many
	// have an interval that is what it says (see TestQuietIntervalsCover).
	largeFleet    = 1000
	quietLives    = firstLives / 2
	quietAccuracy = 0.5
	// trustLives is how many lives those may have together whose interval is not accurate
	// enough, or not to be trusted, after the first: about half a minute's work. No array
	// has more than mostTrustLives.
	trustLives     = 5_000_000
	mostTrustLives = 65_536
	trustedAtATime = 256 // arrays, before the lives are counted again
	// moreLives is how many times as many are simulated in a further round.
	moreLives = 4
	// mostCandidates is how many arrays may be simulated further at a time.
	mostCandidates = 2 * Head
)

// triage puts the arrays of a fleet in order.
type triage struct {
	q         Request
	workers   int
	cases     []*oneCase // of arrays that are alike to the last figure, one
	caseOf    []int      // by array
	standings []Standing // by array
	order     []int      // of arrays
}

// oneCase is an array to simulate.
type oneCase struct {
	array    int // the first that is so
	times    int // how many are
	seed     uint64
	lives    int
	asked    int64 // lives that were asked for last
	accuracy float64
	answer   now.Result
}

// first simulates every array in a few lives, and puts them in order.
func (t *triage) first(ctx context.Context) error {
	known := map[string]int{}
	for i := range t.q.Arrays {
		key := keyOf(&t.q.Arrays[i])
		at, ok := known[key]
		if !ok {
			at = len(t.cases)
			known[key] = at
			t.cases = append(t.cases, &oneCase{array: i, seed: seedOf(t.q.Options.Seed, key)})
		}
		t.cases[at].times++
		t.caseOf = append(t.caseOf, at)
	}
	all := make([]int, len(t.cases))
	for i, c := range t.cases {
		all[i], c.asked, c.accuracy = i, min(firstLives, t.q.Options.MaxTrials), t.q.Options.Accuracy
		if !t.q.Arrays[c.array].troubled() && len(t.cases) >= largeFleet {
			c.asked, c.accuracy = min(quietLives, c.asked), max(quietAccuracy, c.accuracy)
		}
	}
	if err := t.simulate(ctx, all); err != nil {
		return err
	}
	if err := t.trust(ctx); err != nil {
		return err
	}
	if err := t.decide(ctx); err != nil {
		return err
	}
	t.standings = make([]Standing, len(t.q.Arrays))
	for i := range t.q.Arrays {
		t.stand(i)
		t.order = append(t.order, i)
	}
	t.sort()
	return nil
}

// trust simulates further what is not to be trusted, or not accurate enough, where it
// matters most first, until the lives for that are used up.
func (t *triage) trust(ctx context.Context) error {
	var open []int
	for i, c := range t.cases {
		troubled := t.q.Arrays[c.array].troubled()
		if len(c.answer.Warnings) > 0 || !troubled && c.answer.StoppedBy == engine.ByBudget {
			open = append(open, i)
		}
	}
	slices.SortStableFunc(open, func(i, j int) int { return cmp.Compare(t.matters(j), t.matters(i)) })
	for left := trustLives; left > 0 && len(open) > 0; {
		some := open[:min(trustedAtATime, len(open))]
		open = open[len(some):]
		for _, i := range some {
			c := t.cases[i]
			c.asked = max(c.asked, min(mostTrustLives, int64(left/len(some))))
			if t.q.Arrays[c.array].troubled() { // sharpened later, where that is wanted
				c.accuracy = max(quietAccuracy, c.accuracy)
			}
		}
		if err := t.simulate(ctx, some); err != nil {
			return err
		}
		for _, i := range some {
			c := t.cases[i]
			c.asked = int64(c.lives) // to be gone on from: it was a bound
			left -= c.lives
		}
	}
	return nil
}

// matters is how much it matters to know a case better.
func (t *triage) matters(i int) float64 {
	return t.cases[i].answer.Loss.High * float64(t.cases[i].times)
}

// troubled reports whether a drive is down.
func (a *Array) troubled() bool { return len(a.State.Down()) > 0 }

// simulate asks about cases anew, with as many lives as each asks for.
func (t *triage) simulate(ctx context.Context, cases []int) error {
	builders := make([]model.Builder, t.workers)
	errs := make([]error, len(t.q.Arrays))
	each(ctx, t.workers, len(cases), t.q.Options.Progress, func(worker, i int) {
		c := t.cases[cases[i]]
		a := &t.q.Arrays[c.array]
		opt := t.q.Options
		opt.Seed, opt.MaxTrials, opt.Accuracy, opt.Workers, opt.Progress = c.seed, c.asked, c.accuracy, 1, nil
		c.answer, errs[c.array] = now.Brief(ctx, now.Request{Site: a.Site, Choice: a.Choice, State: a.State, Options: opt}, &builders[worker])
		c.lives = c.answer.Trials
	})
	return asArrayErrors(ctx, t.q.Arrays, errs)
}

// stand fills in how an array stands, of the answer to its case.
func (t *triage) stand(i int) {
	a, r := &t.q.Arrays[i], &t.cases[t.caseOf[i]].answer
	s := Standing{
		Name: a.Name, Site: a.Site.Name, SiteAt: a.SiteAt, Choice: a.Choice.Label, Model: a.Choice.Drive.Label,
		Drives: a.Choice.Drives, Down: r.Down, Tolerance: r.Tolerance, AreDown: a.State.Down(),
		Alone: r.Sizing.Shape.DrivesInGroup == 1,
		Loss:  r.Loss, BeforeWhole: r.BeforeWhole, TakesOff: estimate.Exact(0),
		CameraDays: cameraDays(a.Site, a.Choice), Owed: owed(a), Lives: r.Trials, Warnings: r.Warnings,
	}
	if s.Lost() {
		s.Loss, s.BeforeWhole = estimate.Exact(1), estimate.Exact(1)
	} else if len(s.AreDown) == 0 {
		s.BeforeWhole = estimate.Exact(0)
	}
	if best := helping(r); best != nil {
		own := *best
		s.Best, s.TakesOff = &own, takenOff(r.Loss, own.Ratio)
	} else if may := undecided(r); may != nil { // nothing for certain, at the most all of it
		s.TakesOff = estimate.FromInterval(0, 0, r.Loss.High)
		s.TakesOff.RelativeError = 1
		if !math.IsNaN(may.Ratio.Value) {
			s.TakesOff.High = takenOff(r.Loss, may.Ratio).High
		}
	}
	s.Advice = advice(a, r, s.Best)
	t.standings[i] = s
}

// takenOff returns what is taken off a chance by what leaves a share of it. The errors of
// the two are taken for independent.
func takenOff(loss, left estimate.Estimate) estimate.Estimate {
	share := 1 - left.Value
	v := loss.Value * share
	low := math.Hypot(share*(loss.Value-loss.Low), loss.Value*(left.High-left.Value))
	high := math.Hypot(share*(loss.High-loss.Value), loss.Value*(left.Value-left.Low))
	return estimate.FromInterval(v, math.Max(0, v-low), math.Min(1, v+high))
}

// advice says what to do first in a few words.
func advice(a *Array, r *now.Result, best *now.Action) string {
	switch {
	case r.Lost():
		return strings.TrimSuffix(r.Says.Do[0], ".")
	case best != nil:
		return label.OneLine(best.Name)
	case undecided(r) != nil:
		return "Not known with so few lives whether this helps: " + lowerFirst(label.OneLine(undecided(r).Name))
	case len(a.State.Down()) > 0 && a.State.Waiting() > a.State.Spares:
		return "Leave it alone until the new drive is in"
	case len(a.State.Down()) > 0:
		return "Leave it alone: it rebuilds by itself"
	case a.State.Defects() > 0:
		return "Let a scrub read every drive"
	case a.State.Spares < a.Choice.HotSpares:
		return "Order hot spares for those that are out"
	}
	return ""
}

// sort puts the arrays in order, and marks those that are not told apart.
func (t *triage) sort() {
	slices.SortFunc(t.order, func(i, j int) int { return before(&t.standings[i], &t.standings[j]) })
	for k, i := range t.order {
		s := &t.standings[i]
		s.Tied = k > 0 && !s.Lost() && s.Best != nil && overlap(s.TakesOff, t.standings[t.order[k-1]].TakesOff) && !t.standings[t.order[k-1]].Lost()
	}
}

// before orders two arrays, as package fleet has it.
func before(a, b *Standing) int {
	if a.Lost() != b.Lost() {
		if a.Lost() {
			return -1
		}
		return 1
	}
	return cmp.Or(cmp.Compare(b.TakesOff.Value, a.TakesOff.Value), cmp.Compare(b.Loss.Value, a.Loss.Value),
		cmp.Compare(b.Loss.High, a.Loss.High), cmp.Compare(a.Name, b.Name))
}

// overlap reports whether two intervals have a value in common.
func overlap(a, b estimate.Estimate) bool { return a.High >= b.Low && b.High >= a.Low }

// sharpen simulates what may be of the head of the order, and is not told apart, further.
func (t *triage) sharpen(ctx context.Context) error {
	for {
		var again []int
		for _, c := range t.inDoubt() {
			of := t.cases[c]
			of.asked = min(of.asked*moreLives, t.q.Options.MaxTrials)
			of.accuracy = -1 // all of them: what is to be known better is a difference
			again = append(again, c)
		}
		if len(again) == 0 {
			return nil
		}
		if err := t.simulate(ctx, again); err != nil {
			return err
		}
		for i := range t.q.Arrays {
			if slices.Contains(again, t.caseOf[i]) {
				t.stand(i)
			}
		}
		t.sort()
	}
}

// inDoubt returns the cases to simulate further: of arrays that may be of the head, those
// that are not told apart from another one and may have more lives.
func (t *triage) inDoubt() (cases []int) {
	var candidates []*Standing
	var at []int
	last := 0.0 // what the last of the head takes off at the least
	for _, i := range t.order {
		s := &t.standings[i]
		if s.Lost() {
			continue
		}
		if s.Best == nil || len(candidates) == mostCandidates {
			break
		}
		if len(candidates) >= Head && s.TakesOff.High < last {
			continue
		}
		candidates, at = append(candidates, s), append(at, i)
		if len(candidates) == Head {
			last = s.TakesOff.Low
		}
	}
	for k, s := range candidates {
		tied := k > 0 && overlap(s.TakesOff, candidates[k-1].TakesOff) || k+1 < len(candidates) && overlap(s.TakesOff, candidates[k+1].TakesOff)
		c := t.cases[t.caseOf[at[k]]]
		if tied && c.asked < t.q.Options.MaxTrials && s.TakesOff.RelativeError*estimate.Z95 > t.q.Options.Accuracy && !slices.Contains(cases, t.caseOf[at[k]]) {
			cases = append(cases, t.caseOf[at[k]])
		}
	}
	return cases
}

// losses returns how many arrays are to be expected to lose footage.
func (t *triage) losses() estimate.Estimate {
	return t.lossesOf(func(*Standing) bool { return true })
}

// lossesOf returns the same of some arrays. Errors of different cases are independent;
// arrays of one case err together.
func (t *triage) lossesOf(some func(*Standing) bool) estimate.Estimate {
	times := make([]float64, len(t.cases))
	for i := range t.standings {
		if s := &t.standings[i]; !s.Lost() && some(s) {
			times[t.caseOf[i]]++
		}
	}
	value, below, above := 0.0, 0.0, 0.0
	for i, c := range t.cases {
		e := c.answer.Loss.Times(times[i])
		value += e.Value
		below += (e.Value - e.Low) * (e.Value - e.Low)
		above += (e.High - e.Value) * (e.High - e.Value)
	}
	e := estimate.FromInterval(value, math.Max(0, value-math.Sqrt(below)), value+math.Sqrt(above))
	if value == 0 && e.High > 0 {
		e.RelativeError = 1
	}
	return e
}
