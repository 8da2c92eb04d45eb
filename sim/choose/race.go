package choose

import (
	"cmp"
	"context"
	"math"
	"slices"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
	"arrayodds/sim/sweep"
)

// round is one of the race: so many lives of each design that is left, fewer where it is
// as accurate as that before.
type round struct {
	trials   int64
	accuracy float64
	work     int64 // that one design may take; 0: as the series has it
}

var rounds = []round{{32, -1, 4e5}, {512, -1, 4e6}, {8192, 0.01, 0}}

// race simulates designs round by round, and returns how many each round began with. Those
// that have left keep the figures that they had.
func (s *search) race(ctx context.Context, all []Design) (begun []int, err error) {
	left := make([]int, len(all))
	for i := range left {
		left[i] = i
	}
	rounds := rounds
	if s.Options.Blocks > 0 { // which say how much is to be known of every design
		rounds = []round{{s.Options.MaxTrials, s.Options.Accuracy, 0}}
	}
	for n, r := range rounds {
		begun = append(begun, len(left))
		points := make([]sweep.Point, len(left))
		for k, i := range left {
			f := s.sets[all[i].set].file
			points[k] = sweep.Point{Site: f.Site, Choice: all[i].Choice}
		}
		opt := s.Options
		opt.Accuracy, opt.MaxTrials, opt.MaxWork, opt.Branching = r.accuracy, r.trials, r.work, !s.Options.Plain
		opt.Progress = engine.PartOf(s.Options.Progress, 0.6*float64(n)/float64(len(rounds)), 0.6*float64(n+1)/float64(len(rounds)))
		series, err := sweep.Run(ctx, points, opt)
		if err != nil {
			return nil, err
		}
		var known []int
		for k, i := range left {
			d, x := &all[i], series.Result(k)
			d.Loss, d.Missing, d.Replaced, d.Trials = x.LossChance, x.MissingClip, x.DrivesReplaced, x.Trials
			if !x.HasCameras {
				d.Missing = estimate.None()
			}
			d.Cost = s.cost(*d)
			if d.Loss.Known() && !math.IsNaN(d.Cost) {
				known = append(known, i)
			}
		}
		left = undominated(all, known, false)
	}
	for _, i := range undominated(all, left, true) {
		all[i].Front = true
	}
	return begun, nil
}

// cost returns what a design costs over the service life.
func (s *search) cost(d Design) float64 {
	o := study.Outcome{Choice: d.Choice, Sizing: d.Sizing, Options: d.Options}
	o.Result.DrivesReplaced = d.Replaced
	return o.CostOfLife(s.sets[d.set].file.Site).Total().Value
}

// sameMissing is the ratio of two chances of a missing clip that counts as none, and
// sameCost that of two costs: the drives that fail are an estimate, too.
const (
	sameMissing = 1.005
	sameCost    = 1.002
)

// undominated returns those of some designs that no other beats: one that costs no more,
// loses footage less often and misses no more clips. By their intervals, or by their values
// alone.
func undominated(all []Design, of []int, byValue bool) (left []int) {
	// What a design beats that is itself beaten, what beats it beats too: so each has to
	// be held against those alone that are left of the cheaper ones.
	order := slices.Clone(of)
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(all[i].Cost, all[j].Cost), cmp.Compare(all[i].Loss.Value, all[j].Loss.Value))
	})
	for _, i := range order {
		if slices.ContainsFunc(left, func(j int) bool { return beats(all[j], all[i], byValue) }) {
			continue
		}
		left = slices.DeleteFunc(left, func(j int) bool { return beats(all[i], all[j], byValue) }) // of the same cost
		left = append(left, i)
	}
	return left
}

// beats reports whether x leaves nothing for y.
func beats(x, y Design, byValue bool) bool {
	if x.Cost > y.Cost*sameCost {
		return false
	}
	high, low := x.Loss.High, y.Loss.Low
	missing, least := x.Missing.High, y.Missing.Low*sameMissing
	if byValue {
		high, low = x.Loss.Value, y.Loss.Value
		missing, least = x.Missing.Value, y.Missing.Value*sameMissing
	}
	if math.IsNaN(missing) || math.IsNaN(least) {
		missing, least = 0, 0
	}
	return high <= low && missing <= least
}
