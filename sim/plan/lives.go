package plan

import (
	"context"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

// Bounds of the plain lives that are counted.
const (
	mostLives = 20000
	livesWork = 5_000_000 // in units of about 100 ns
	// Their streams lie far from those of the blocks of a run, and of single lives.
	livesStreams = 3 << 61
)

// lives is what plain lives say of failures, drive by drive.
type lives struct {
	N       int
	PerYear []Yearly
	// Wanted is by how many drives are wanted in a stretch that begins with a failure and
	// lasts as long as a drive for the shelf takes to come: Wanted[k] of them want k.
	Wanted  []int
	Stretch float64 // hours of such a stretch
}

// Yearly is the drives that fail in one year of service.
type Yearly struct {
	Mean estimate.Estimate
	Most int // that 95 % of lives do not exceed
}

// newLives simulates plain lives of a choice and counts their failures. The digits depend
// on the seed alone.
func newLives(ctx context.Context, s array.Site, c array.Choice, opt engine.Options) (lives, error) {
	sys, err := model.New(s, c)
	if err != nil {
		return lives{}, err
	}
	out := lives{Stretch: stretch(s, sys)}
	years := model.CurveLength(sys.Horizon)
	counts := make([]map[int]int, years)
	for y := range counts {
		counts[y] = map[int]int{}
	}
	sums := model.NewSums(sys)
	sums.MostWork = 2 * livesWork
	stop := context.AfterFunc(ctx, func() { sums.Stop.Store(true) })
	defer stop()
	one, rec := plain.New(sys), history.Record{}
	for k := 0; k < mostLives && sums.Work < livesWork; k++ {
		rec = history.Record{Events: rec.Events[:0]}
		done := one.Trace(stream.New(opt.Seed, livesStreams+uint64(k)), sums.Begin(), &rec)
		if err := ctx.Err(); err != nil {
			return lives{}, err
		}
		if !done { // too busy to be told
			break
		}
		sums.End()
		out.N++
		out.count(rec.Events, counts, sys.Horizon)
	}
	for _, of := range counts {
		out.PerYear = append(out.PerYear, yearly(of, out.N))
	}
	return out, nil
}

// stretch returns the hours from a failure until a drive that is ordered for it is on the
// shelf: the time until somebody knows of the failure, and the lead.
func stretch(s array.Site, sys *model.System) float64 {
	return sys.Repair.Notice.Mean() + s.Build.Lead
}

// count adds the failures of one life.
func (l *lives) count(events []history.Event, counts []map[int]int, horizon float64) {
	perYear := make([]int, len(counts))
	until, wanted := math.Inf(-1), 0
	end := func() {
		if wanted > 0 && until <= horizon { // one that the end cuts short says too little
			for len(l.Wanted) <= wanted {
				l.Wanted = append(l.Wanted, 0)
			}
			l.Wanted[wanted]++
		}
	}
	for _, e := range events {
		if e.Kind != history.Fails {
			continue
		}
		perYear[min(int(e.At/unit.HoursPerYear), len(perYear)-1)]++
		if e.At > until {
			end()
			until, wanted = e.At+l.Stretch, 0
		}
		wanted++
	}
	end()
	for y, n := range perYear {
		counts[y][n]++
	}
}

// yearly sums up the failures of one year of so many lives.
func yearly(counts map[int]int, n int) Yearly {
	if n == 0 {
		return Yearly{Mean: estimate.None()}
	}
	sum, squares, most := 0.0, 0.0, 0
	for k, times := range counts {
		sum += float64(k * times)
		squares += float64(k * k * times)
		most = max(most, k)
	}
	mean := sum / float64(n)
	y := Yearly{Mean: estimate.Unseen(float64(n), 1)}
	if sum > 0 {
		variance := max(0, squares/float64(n)-mean*mean) / float64(n)
		y.Mean = estimate.FromError(mean, math.Sqrt(variance+1/float64(n)/float64(n)), float64(n-1))
	}
	for below := 0; y.Most < most; y.Most++ {
		if below += counts[y.Most]; float64(below) >= 0.95*float64(n) {
			break
		}
	}
	return y
}

// shelf returns the fewest drives on the shelf that are enough in 95 % of the stretches
// that begin with a failure, and in what share of them that is; at least one.
func (l lives) shelf() (drives int, enough estimate.Estimate) {
	total := 0
	for _, times := range l.Wanted {
		total += times
	}
	if total == 0 {
		return 1, estimate.None()
	}
	within := 0
	for k, times := range l.Wanted {
		if within += times; k > 0 && float64(within) >= 0.95*float64(total) {
			return k, estimate.Proportion(float64(within), float64(total))
		}
	}
	return len(l.Wanted) - 1, estimate.Proportion(float64(total), float64(total))
}
