package fleet

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

const (
	// yearLives is how many lives of a year are simulated of all arrays, about ten
	// seconds' work; the number of replicates of the fleet follows within its bounds.
	yearLives                       = 10_000_000
	leastReplicates, mostReplicates = 400, 20_000
	// mostModels is how many models of drives are told of by themselves.
	mostModels = 200
)

// year is the failures of the next year, replicate by replicate.
type year struct {
	q          Request
	standings  []Standing
	workers    int
	replicates int

	labels  []string // of the models that are told of, most drives first
	others  int      // models that are not
	modelOf []int    // by array; len(labels) for the others
	count   [][]int64
	sums    []moments // by array
}

// moments are the sums of what was counted, and of its squares.
type moments struct{ sum, squares int64 }

// run simulates the year of every array.
func (y *year) run(ctx context.Context) error {
	if y.replicates = y.q.replicates; y.replicates == 0 {
		y.replicates = min(max(yearLives/len(y.q.Arrays), leastReplicates), mostReplicates)
	}
	y.nameModels()
	y.sums = make([]moments, len(y.q.Arrays))
	tallies := make([][][]int64, y.workers) // by worker, model and replicate
	builders := make([]model.Builder, y.workers)
	for w := range tallies {
		tallies[w] = y.zero()
	}
	errs := make([]error, len(y.q.Arrays))
	each(ctx, y.workers, len(y.q.Arrays), y.q.Options.Progress, func(w, i int) {
		y.sums[i], errs[i] = y.ofOne(&y.q.Arrays[i], &builders[w], tallies[w][y.modelOf[i]])
	})
	if err := asArrayErrors(ctx, y.q.Arrays, errs); err != nil {
		return err
	}
	y.count = y.zero()
	for _, t := range tallies {
		for m := range t {
			for r, n := range t[m] { // whole numbers, so in any order
				y.count[m][r] += n
			}
		}
	}
	return nil
}

func (y *year) zero() [][]int64 {
	all := make([][]int64, len(y.labels)+1)
	for m := range all {
		all[m] = make([]int64, y.replicates)
	}
	return all
}

// nameModels finds the models with the most drives.
func (y *year) nameModels() {
	drives := map[string]int{}
	for i := range y.q.Arrays {
		drives[y.q.Arrays[i].Choice.Drive.Label] += y.q.Arrays[i].Choice.Drives
	}
	for l := range drives {
		y.labels = append(y.labels, l)
	}
	slices.SortFunc(y.labels, func(a, b string) int { return cmp.Or(cmp.Compare(drives[b], drives[a]), cmp.Compare(a, b)) })
	if len(y.labels) > mostModels {
		y.others = len(y.labels) - mostModels
		y.labels = y.labels[:mostModels]
	}
	at := map[string]int{}
	for m, l := range y.labels {
		at[l] = m
	}
	for i := range y.q.Arrays {
		m, ok := at[y.q.Arrays[i].Choice.Drive.Label]
		if !ok {
			m = len(y.labels)
		}
		y.modelOf = append(y.modelOf, m)
	}
}

// ofOne simulates the year of one array in all replicates, and adds its failures to those
// of its model.
func (y *year) ofOne(a *Array, b *model.Builder, into []int64) (m moments, err error) {
	site := a.Site
	site.ServiceLife = unit.HoursPerYear
	sys, err := b.System(site, a.Choice)
	if err != nil {
		return m, err
	}
	sys.Begin(setUpAgain(a.State, sys))
	simulator, sums := plain.New(sys), model.NewSums(sys)
	sums.MostWork, sums.FiguresOnly = engine.MaxBlockWork, true
	rnd := stream.New(seedOf(y.q.Options.Seed, "year "+a.Name), 0)
	shared := stream.New(seedOf(y.q.Options.Seed, "law "+lawKey(a.Choice.Drive.Life)), 0)
	for r := range y.replicates {
		if sys.Fitted != nil || sys.Uncertain > 0 {
			simulator.GivenLife(drawnLife(sys, shared))
		}
		trial := sums.Begin()
		if !simulator.Life(rnd, trial) {
			busy := engine.NewBusyError(sys)
			busy.Choice = a.Choice.Label
			return m, busy
		}
		n := int64(trial.Amounts[model.Failures])
		into[r] += n
		m.sum += n
		m.squares += n * n
	}
	return m, nil
}

// lawKey returns what tells apart laws that are not known by the same: of one that a log
// updated it is the law before and the multiplier, so that what two logs leave open of a rate
// stated alike is drawn for each.
func lawKey(l array.Life) string {
	if u, ok := l.(array.UpdatedLife); ok {
		return fmt.Sprintf("%s times Gamma(%g, %g)", lawKey(u.Of), u.Multiplier.Shape, u.Multiplier.Rate)
	}
	return l.SiteFile()
}

// drawnLife draws what is uncertain of the life of a system's drives: the law, and what its
// hazard is to be multiplied by.
func drawnLife(sys *model.System, s *stream.Stream) (life law.Life, rate float64) {
	life, rate = sys.Life, 1
	if sys.Fitted != nil {
		life = sys.Fitted.Draw(s)
	}
	if sys.Uncertain > 0 {
		rate = s.Gamma(sys.Uncertain)
	}
	return life, rate
}

// setUpAgain returns the state of an array as it is, and of one that is lost as it is once
// its failed drives are replaced.
func setUpAgain(s array.State, sys *model.System) array.State {
	shape := array.Shape{DrivesInGroup: sys.Drives}
	if s.MostDown(shape) <= sys.Tolerance {
		return s
	}
	nan := math.NaN()
	s.Drives = slices.Clone(s.Drives)
	for i := range s.Drives {
		if s.Drives[i].Down {
			s.Drives[i] = array.DriveState{DownFor: nan, RebuiltFor: nan}
		}
	}
	return s
}

// ofArray returns the failures to expect of one array.
func (y *year) ofArray(i int) estimate.Estimate {
	n, m := float64(y.replicates), y.sums[i]
	if m.sum == 0 {
		return estimate.Unseen(n, 1)
	}
	mean := float64(m.sum) / n
	return estimate.FromError(mean, math.Sqrt(math.Max(0, float64(m.squares)/n-mean*mean)/n), n-1)
}

// yearOf returns what a year brings, of counts by replicate.
func yearOf(counts []int64) Year {
	n := float64(len(counts))
	values := make([]float64, len(counts))
	sum, squares := 0.0, 0.0
	for i, c := range counts {
		values[i] = float64(c)
		sum += values[i]
	}
	mean := sum / n
	for _, v := range values {
		squares += (v - mean) * (v - mean)
	}
	sort.Float64s(values)
	out := Year{Most: estimate.Quantile(values, 0.95), Failures: estimate.Unseen(n, 1)}
	if sum > 0 {
		out.Failures = estimate.FromError(mean, math.Sqrt(squares/(n-1)/n), n-1)
	}
	return out
}

// all returns what the year brings of all drives.
func (y *year) all() Year {
	counts := make([]int64, y.replicates)
	for m := range y.count {
		for r, n := range y.count[m] {
			counts[r] += n
		}
	}
	out := yearOf(counts)
	for i := range y.q.Arrays {
		out.Drives += y.q.Arrays[i].Choice.Drives
		out.Owed += y.standings[i].Owed
	}
	return out
}

// models returns what the year brings of each model, most failures first; those that are
// not told of by themselves are one at the end.
func (y *year) models() []Model {
	all := make([]Model, len(y.labels), len(y.labels)+1)
	for m, l := range y.labels {
		all[m] = Model{Label: l, Year: yearOf(y.count[m])}
	}
	if y.others > 0 {
		all = append(all, Model{Others: y.others, Year: yearOf(y.count[len(y.labels)])})
	}
	for i := range y.q.Arrays {
		m := &all[y.modelOf[i]]
		m.Arrays++
		m.Drives += y.q.Arrays[i].Choice.Drives
		m.Owed += y.standings[i].Owed
	}
	slices.SortStableFunc(all, func(a, b Model) int {
		return cmp.Or(cmp.Compare(min(1, a.Others), min(1, b.Others)), cmp.Compare(b.Failures.Value, a.Failures.Value))
	})
	return all
}
