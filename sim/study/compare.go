package study

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/engine"

	"golang.org/x/sync/errgroup"
)

// Simulator simulates one choice of a site, as [sim.Run] does.
type Simulator func(context.Context, array.Site, array.Choice, engine.Options) (sim.Result, error)

// BusyErrors is the error of [Compare] where every choice is too busy to be
// simulated.
type BusyErrors []*engine.BusyError

// Error returns a line for each choice.
func (e BusyErrors) Error() string {
	lines := make([]string, len(e))
	for i, busy := range e {
		lines[i] = busy.Error()
	}
	return strings.Join(lines, "\n")
}

// maxRunning is how many choices are begun before one of them is done.
const maxRunning = 8

// Compare sizes and simulates choices of a site; the outcomes come in the order in
// which the choices are asked for. A choice too busy to be simulated is marked, and
// the others are compared all the same; [BusyErrors] is for a request that has no
// other. Any other error of a choice ends all of them.
//
// Choices run side by side, each with as many workers as there may be in all: some
// wait for the last of their round while others work. Slots bound how many work at
// once; how many choices are begun bounds the memory. Progress is told of all
// choices together, its share alone.
//
// Then all that is uncertain of the inputs is drawn together, a few dozen times, and every
// choice simulated at each of these settings: [Doubt].
//
// With a fixed number of blocks ([engine.Options.Blocks]) the runs of the choices can be
// divided: the error of a share is [engine.ErrPart] once it is done. The doubt has its own
// few trials, and is worked out by whoever puts the shares together.
//
// Its parts can be worked out in separate processes and put together to the same digits:
// [RunChoice] and [RunReplicate].
func Compare(ctx context.Context, asked Request, simulate Simulator) (Comparison, error) {
	progress := asked.Options.Progress
	asked.Options.Progress = engine.PartOf(progress, 0, simulating)
	out, err := asked.simulated(ctx, simulate)
	if err == nil && asked.Options.Ledger.Dividing() {
		return Comparison{}, engine.ErrPart
	}
	if err != nil || asked.Options.Plain { // which serves to check
		return out, err
	}
	asked.Options.Progress = engine.PartOf(progress, simulating, 1)
	err = asked.doubt(ctx, &out)
	return out, err
}

// RunChoice simulates one choice of a request, by its place in Choices, just as [Compare]
// does beside the others. Its error may be an [engine.BusyError], with which there is a
// result all the same.
func RunChoice(ctx context.Context, asked Request, place int, simulate Simulator) (sim.Result, error) {
	s := asked.Source.File().Site
	return simulate(ctx, s, s.Choices[asked.Choices[place]], asked.optionsOfAChoice())
}

// optionsOfAChoice returns how each choice of a comparison is simulated: what all of them
// may take is shared out.
func (a Request) optionsOfAChoice() engine.Options {
	opt := a.Options
	if opt.Workers == 0 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	if opt.MaxWork == 0 {
		opt.MaxWork = max(leastWork, engine.MaxRunWork/int64(max(1, len(a.Choices))))
	}
	return opt
}

// simulated returns the comparison without its doubt.
func (a Request) simulated(ctx context.Context, simulate Simulator) (Comparison, error) {
	file, opt := a.Source.File(), a.optionsOfAChoice()
	out := Comparison{
		Site: file.Site, Seed: opt.Seed, Accuracy: opt.Accuracy, Plain: opt.Plain,
		Outcomes: make([]Outcome, len(a.Choices)), Assumptions: file.Assumptions,
	}
	for i, at := range a.Choices {
		c := file.Site.Choices[at]
		sizing, err := file.Site.Size(c)
		if err != nil {
			return Comparison{}, err
		}
		out.Outcomes[i] = Outcome{Choice: c, Sizing: sizing}
	}
	opt.Slots = engine.NewSlots(opt.Workers)
	progress := newJointProgress(opt.Progress, len(out.Outcomes))

	busy := make(BusyErrors, len(out.Outcomes))
	group, running := errgroup.WithContext(ctx)
	running = either{running, ctx}
	group.SetLimit(min(opt.Workers, maxRunning))
	for i := range out.Outcomes {
		group.Go(func() error {
			o, opt := &out.Outcomes[i], opt
			opt.Progress = progress.of(i)
			var err error
			if o.Result, err = simulate(running, file.Site, o.Choice, opt); err != nil && !errors.As(err, &busy[i]) {
				return fmt.Errorf("choice %q: %w", o.Choice.Label, err)
			}
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return Comparison{}, err
	}
	if !slices.Contains(busy, nil) {
		return Comparison{}, busy
	}
	return out, nil
}

// either is a context of a group that also asks the one that it was made of, whose Err
// may let others have their turn.
type either struct {
	context.Context
	from context.Context
}

func (e either) Err() error {
	if err := e.from.Err(); err != nil {
		return err
	}
	return e.Context.Err()
}

// simulating is the share of the work that goes into the choices as entered.
const simulating = 0.6

// leastWork is what the run of any choice may take, some two seconds.
const leastWork int64 = 2e7

// jointProgress is the progress of several runs side by side, told as one.
type jointProgress struct {
	tell   func(engine.Progress)
	mu     sync.Mutex
	shares []float64 // of each run's work
}

func newJointProgress(tell func(engine.Progress), runs int) *jointProgress {
	return &jointProgress{tell: tell, shares: make([]float64, runs)}
}

// of returns what a run reports its progress to, nil if nobody is to be told.
func (p *jointProgress) of(run int) func(engine.Progress) {
	if p.tell == nil {
		return nil
	}
	return func(now engine.Progress) {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.shares[run] = max(p.shares[run], now.Share) // the work that is expected may grow
		sum := 0.0
		for _, share := range p.shares {
			sum += share
		}
		p.tell(engine.Progress{Share: sum / float64(len(p.shares))})
	}
}
