package sweep

import (
	"context"
	"math"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// find returns the first break-even from the low end.
func (f *finder) find(ctx context.Context) (BreakEven, error) {
	nan := math.NaN()
	b := BreakEven{Value: nan, Low: nan, High: nan, Slope: estimate.None(), StoppedBy: engine.ByAccuracy}
	grid, err := f.grid(ctx)
	if err != nil {
		return b, err
	}
	first, last := grid[0], grid[len(grid)-1]
	from, to, ok := f.bracket(grid, &b)
	if ok {
		var near float64
		if near, err = f.search(ctx, from, to); err == nil {
			err = f.settle(ctx, near, &b)
		}
		if err != nil {
			return b, err
		}
	}
	b.AtLow, b.AtHigh = first.estimate(), last.estimate()
	b.AtGoal = estimate.Exact(f.chance)
	if f.other != nil {
		b.AtGoal = f.other.estimate()
	}
	b.Trials = f.trials()
	f.report(1)
	return b, nil
}

// estimate returns the loss chance of a member so far.
func (m *member) estimate() estimate.Estimate {
	return model.NewFit(&m.sums).Estimate(model.Loss).AtMostOne()
}

// grid tries values over the whole range, and returns those that can be simulated.
func (f *finder) grid(ctx context.Context) ([]probe, error) {
	var grid []probe
	for i := range gridValues {
		p, err := f.probe(f.low + (f.top-f.low)*float64(i)/(gridValues-1))
		if err != nil {
			return nil, err
		}
		grid = append(grid, p)
	}
	most := min(gridBlocks, f.series.budget)
	for f.blocks = min(firstRound, most); ; f.blocks = min(2*f.blocks, most) {
		if err := f.run(ctx, f.blocks, grid...); err != nil {
			return nil, err
		}
		f.report(0.2 * math.Sqrt(float64(f.blocks)/float64(most)))
		enough := f.other == nil || f.other.converged(gridAccuracy)
		for _, p := range grid {
			enough = enough && (p.err != nil || p.converged(gridAccuracy))
		}
		if enough || f.blocks == most {
			break
		}
	}
	if f.other != nil && f.other.err != nil {
		return nil, f.other.err
	}
	simulated := grid[:0:0]
	for _, p := range grid {
		if p.err == nil {
			simulated = append(simulated, p)
		}
	}
	if len(simulated) < 2 {
		return nil, grid[0].err
	}
	return simulated, nil
}

// bracket returns the two neighbours of the grid between which the goal is first
// crossed, and says in b what else the grid shows. Values whose side is not
// certain are passed over, unless no others are left: an end beside the goal.
func (f *finder) bracket(grid []probe, b *BreakEven) (from, to probe, ok bool) {
	var known []probe
	var sides []int
	for _, p := range grid {
		if s := f.side(p.member); s != 0 {
			known, sides = append(known, p), append(sides, s)
		}
	}
	for i := 1; i < len(known); i++ {
		if sides[i] != sides[i-1] {
			if b.Crossings++; b.Crossings == 1 {
				from, to = known[i-1], known[i]
			}
		}
	}
	switch {
	case b.Crossings > 0:
		return from, to, true
	case len(known) == 0:
		b.Flat = true
		return from, to, false
	}
	// One side all over, as far as it is certain. An end that is not may lie
	// beyond the goal.
	low, top := grid[0], grid[len(grid)-1]
	if by, _ := f.off(low.member); sign(by) != sides[0] {
		b.Crossings = 1
		return low, known[0], true
	}
	if by, _ := f.off(top.member); sign(by) != sides[0] {
		b.Crossings = 1
		return known[len(known)-1], top, true
	}
	b.SaferEverywhere, b.RiskierEverywhere = sides[0] < 0, sides[0] > 0
	return from, to, false
}

// search narrows a bracket down and returns where the trials so far have f at 0, to a
// fraction of its standard error.
func (f *finder) search(ctx context.Context, from, to probe) (u float64, err error) {
	fa, _ := f.off(from.member)
	fb, _ := f.off(to.member)
	a, b := from.u, to.u
	held := 0 // the end that stayed in the last step
	for step := 0; step < 40; step++ {
		if fa == 0 {
			return a, nil
		}
		if fb == 0 {
			return b, nil
		}
		// The halving of a kept end's height is the Illinois algorithm's. Where an
		// end has no loss chance at all the middle serves.
		u = (a*fb - b*fa) / (fb - fa)
		if !(u > a && u < b) || step%4 == 3 {
			u = (a + b) / 2
		}
		p, err := f.probe(u)
		if err != nil {
			return u, err
		}
		if err := f.run(ctx, f.blocks, p); err != nil {
			return u, err
		}
		if p.err != nil {
			return u, p.err
		}
		f.report(0.2 + 0.02*float64(min(step, 10)))
		by, bundle := f.off(p.member)
		if math.Abs(by) <= 0.2*errorOf(bundle[:]) || b-a <= 1e-9*(f.top-f.low) {
			return u, nil
		}
		if sign(by) == sign(fa) {
			a, fa = u, by
			if held == 1 {
				fb /= 2
			}
			held = 1
		} else {
			b, fb = u, by
			if held == -1 {
				fa /= 2
			}
			held = -1
		}
	}
	return u, nil
}
