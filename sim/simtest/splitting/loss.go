package splitting

import (
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Options say how long to look. A 0 asks for what stands beside.
type Options struct {
	Seed       uint64
	Runs       int // independent of each other, pilots and all; 4
	Lives      int // of a run; 20 000
	Pilots     int // of a run; 8
	PilotLives int // of a pilot; 5 000
}

// Result is the chance of a loss within the horizon, and how it came about.
type Result struct {
	// The interval is that of the mean over all lives, or over the runs where these
	// differ by more than their lives do.
	estimate.Estimate
	Runs    []estimate.Estimate
	Largest float64 // share of the largest life in the sum
	Windows float64 // looked at for a life, on average
}

// longest is how many windows a life of a pilot may take. A value that is far too high
// makes many lines, which is of no use.
const longest = 3000

// Loss estimates the chance that a system loses a group within its horizon. It counts
// a defect or a read error as a loss where the system stops at one.
func Loss(sys *model.System, opt Options) Result {
	for _, o := range []struct {
		is    *int
		usual int
	}{{&opt.Runs, 4}, {&opt.Lives, 20000}, {&opt.Pilots, 8}, {&opt.PilotLives, 5000}} {
		if *o.is == 0 {
			*o.is = o.usual
		}
	}
	var r Result
	largest := 0.0
	for run := range opt.Runs {
		e, most, windows := oneRun(sys, opt, uint64(run)<<32)
		r.Runs = append(r.Runs, e)
		r.Windows += windows / float64(opt.Runs)
		largest = math.Max(largest, most)
	}
	n := float64(opt.Runs)
	mean, within, between := 0.0, 0.0, 0.0
	for _, e := range r.Runs {
		mean += e.Value / n
		within += math.Pow(e.Value*e.RelativeError, 2)
	}
	for _, e := range r.Runs {
		between += math.Pow(e.Value-mean, 2)
	}
	if n > 1 {
		between /= n - 1
	}
	off := math.Sqrt(math.Max(within/n, between) / n)
	r.Estimate = estimate.Estimate{Value: mean, Low: math.Max(0, mean-estimate.Z95*off), High: mean + estimate.Z95*off, RelativeError: off / mean}
	r.Largest = largest / (mean * n * float64(opt.Lives))
	return r
}

// oneRun is a run with the streams from one on, its largest life, and the mean number of
// windows.
func oneRun(sys *model.System, opt Options, first uint64) (e estimate.Estimate, largest, windows float64) {
	s := newSimulator(sys)
	rnd := stream.New(opt.Seed, first)
	s.jumps = newJumps(s.classes())
	for range opt.Pilots {
		for range opt.PilotLives {
			s.life(rnd, longest)
		}
		s.solve()
	}
	s.jumps = nil
	sum, squares := 0.0, 0.0
	for k := range opt.Lives {
		rnd.Restart(opt.Seed, first+uint64(1+k))
		y := s.life(rnd, 0)
		sum += y
		squares += y * y
		largest = math.Max(largest, y)
		windows += float64(s.work)
	}
	n := float64(opt.Lives)
	return meanOf(n, sum, squares), largest, windows / n
}

// meanOf returns the mean over n lives that add up to sum, their squares to squares, with
// an interval by the normal limit.
func meanOf(n, sum, squares float64) estimate.Estimate {
	m := sum / n
	variance := math.Max(0, squares/n-m*m) / (n - 1)
	return estimate.FromError(m, math.Sqrt(variance), n-1)
}
