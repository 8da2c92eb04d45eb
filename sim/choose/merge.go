package choose

import (
	"math"
	"slices"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// merge adds comparisons of designs to the finalists, the cheapest first. Pairs that were
// not compared at the same settings are not known to each other.
func (f *Found) merge(parts []study.Comparison) {
	all := &f.Finalists
	for _, c := range parts {
		before := len(all.Outcomes)
		if before == 0 {
			*all = c
			all.Site = f.Site
			continue
		}
		shift := len(all.Doubt.Inputs)
		for i := range c.Outcomes {
			if d := c.Outcomes[i].Doubt; d != nil {
				for m := range d.Moves {
					d.Moves[m].Input += shift
				}
			}
		}
		all.Outcomes = append(all.Outcomes, c.Outcomes...)
		all.Doubt.Inputs = append(all.Doubt.Inputs, c.Doubt.Inputs...)
		all.Doubt.Settings = max(all.Doubt.Settings, c.Doubt.Settings)
		n := len(all.Outcomes)
		safer := make([][]float64, n)
		for i := range safer {
			safer[i] = make([]float64, n)
			for j := range safer[i] {
				safer[i][j] = math.NaN()
				switch {
				case i < before && j < before:
					safer[i][j] = all.Doubt.Safer[i][j]
				case i >= before && j >= before:
					safer[i][j] = c.Doubt.Safer[i-before][j-before]
				}
			}
		}
		all.Doubt.Safer = safer
		all.Doubt.LeftOut = mergeLeftOut(all.Doubt.LeftOut, c.Doubt.LeftOut, before, len(c.Outcomes))
	}
	f.sort()
}

// mergeLeftOut adds the hazards tried on further outcomes.
func mergeLeftOut(a, b []study.LeftOut, before, more int) (all []study.LeftOut) {
	none := func(n int) (e []estimate.Estimate) {
		for range n {
			e = append(e, estimate.None())
		}
		return e
	}
	for _, l := range a {
		other := slices.IndexFunc(b, func(x study.LeftOut) bool { return x.Key == l.Key })
		chance, factor, matters := none(more), none(more), false
		if other >= 0 {
			chance, factor, matters = b[other].Chance, b[other].Factor, b[other].Matters
		}
		l.Chance, l.Factor = slices.Concat(l.Chance, chance), slices.Concat(l.Factor, factor)
		l.Matters = l.Matters || matters
		all = append(all, l)
	}
	for _, l := range b {
		if !slices.ContainsFunc(a, func(x study.LeftOut) bool { return x.Key == l.Key }) {
			l.Chance, l.Factor = slices.Concat(none(before), l.Chance), slices.Concat(none(before), l.Factor)
			all = append(all, l)
		}
	}
	return all
}

// sort puts the finalists in the order of what they cost.
func (f *Found) sort() {
	all := &f.Finalists
	n := len(all.Outcomes)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	cost := func(i int) float64 { return all.Outcomes[i].CostOfLife(f.Site).Total().Value }
	slices.SortStableFunc(order, func(i, j int) int {
		switch x, y := cost(i), cost(j); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	was := *all
	all.Outcomes = nil
	safer := make([][]float64, n)
	for at, i := range order {
		all.Outcomes = append(all.Outcomes, was.Outcomes[i])
		safer[at] = make([]float64, n)
		for to, j := range order {
			safer[at][to] = was.Doubt.Safer[i][j]
		}
	}
	doubt := *was.Doubt
	doubt.Safer, doubt.LeftOut = safer, nil
	for _, l := range was.Doubt.LeftOut {
		moved := l
		moved.Chance, moved.Factor = nil, nil
		for _, i := range order {
			moved.Chance, moved.Factor = append(moved.Chance, l.Chance[i]), append(moved.Factor, l.Factor[i])
		}
		doubt.LeftOut = append(doubt.LeftOut, moved)
	}
	all.Doubt = &doubt
}
