// Command arrayodds tells what a choice of drives risks for the footage that is
// recorded on it.
//
//	arrayodds new [SITE.toml]      write a commented site file to begin with
//	arrayodds compare SITE.toml    size, simulate and rank every choice
//	arrayodds choose SITE.toml     search for the cheapest design that meets the goal
//	arrayodds size SITE.toml       find the fewest drives that hold the footage
//	arrayodds check SITE.toml      read and judge the file, simulate nothing
//	arrayodds vary SITE.toml       one or two inputs over a range
//	arrayodds rank SITE.toml       which input matters most
//	arrayodds replay SITE.toml     single lives of one choice, hour by hour
//	arrayodds now SITE.toml        one array in trouble tonight: what to do and what not
//	arrayodds now --fleet DIR      many arrays: where to go first, and the next year's spares
//	arrayodds lesson SITE.toml     questions to predict, then see
//	arrayodds fit RECORD           find a life law in a fleet's own record
//	arrayodds merge PART...        put together the parts that processes worked out
//	arrayodds desk [SITE.toml]     one page with the engine in it
//	arrayodds licences [NAME]      the licences of all that is in the program
//	arrayodds completion SHELL     what makes a shell complete a command line
//	arrayodds man                  the manual page
//
// This package is the way in and out only: a command reads its flags, asks one
// question of package sim/study (or of sim/choose, sim/sizing, sim/teach) and writes what comes back, by packages export and
// print. Each command is a file of its name; what they share is how arguments are
// read (arguments.go), inputs (input.go) and outputs (outputs.go).
//
// # Parts
//
// compare, choose, vary and rank take --blocks N, which gives every system that many blocks
// of lives and no stopping rule, and --part I/N, which works out a share of that and writes
// it with the question and the site file in it (package partfile). merge puts parts
// together, and writes what the command itself writes with the same --blocks, to the byte:
// packages divide and batch say how, and how that is run on a cluster.
//
// Divided are
//
//   - of compare, the blocks of every choice, and of what else it simulates of one (the
//     ends of a record's rate, of bit rates);
//   - of vary and rank, the points, each with all of its blocks; and the choices that vary
//     solves for and of which rank --thorough shares out the variance;
//   - of choose, the designs: with --blocks its race is one round, a fixed list.
//
// What hangs on all parts is worked out by merge: the doubt of compare, of which the work
// is bounded (some ten seconds of a processor), and what comes after choose's race, a few
// designs.
//
// What a user may rely on from one version to the next is the doc of package promises.
//
// The exit status is 0 when all is done, 1 when something failed (a full disk,
// an interrupt), 2 when the input or the command line is wrong; on 1 and 2
// no file is written. Text that cannot be written to standard output is a failure;
// where that is a pipe that nobody reads any more, the program dies of SIGPIPE, as
// others do.
//
// SIGINT, SIGTERM and SIGHUP end the program at once, whatever it waits for, with
// status 1. SIGHUP that nohup had ignored stays ignored. A signal that comes while
// files are being put in place comes too late, and the status is 0: see package
// atomicfile, which also says what a run leaves that is killed.
package main

import (
	"context"
	"errors"
	"os"
	"os/signal"
	"syscall"
	"time"

	"arrayodds/cmd/arrayodds/atomicfile"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/signals"
	"arrayodds/sim"
)

func main() {
	os.Exit(program{in: os.Stdin, out: os.Stdout, err: os.Stderr, simulate: sim.Run}.runUntilSignal(os.Args))
}

const (
	// grace is how long a command may take to end by itself once it is told to. It
	// may be waiting for a pipe, and then it never does.
	grace = 100 * time.Millisecond
	// patience is after what time a further signal ends the program at once, be it
	// in the midst of putting files in place. Some that send a signal send it twice.
	patience = time.Second
)

// runUntilSignal runs the command that the arguments name, until a signal ends it,
// and returns the exit status. Once files are being put in place it is too late to
// end: that is done in less time than it takes to tell.
func (p program) runUntilSignal(args []string) int {
	out, errs := console.NewWriter(p.out), console.NewWriter(p.err)
	p.out, p.err = out, errs
	ending := make(chan os.Signal, 1)
	signal.Notify(ending, signals.Ending()...)
	signals.CatchBrokenPipe()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	ended := make(chan error, 1)
	go func() { ended <- p.execute(ctx, args) }()
	select {
	case err := <-ended:
		if errors.Is(err, syscall.EPIPE) {
			signals.DieOfBrokenPipe(out, errs)
		}
		p.report(err)
		return exitStatus(err)
	case <-ending:
	}
	time.AfterFunc(patience, func() { signal.Reset(signals.Ending()...) })
	cancel()
	err := context.Canceled
	select {
	case err = <-ended:
	case <-time.After(grace):
		if atomicfile.Stop() {
			err = <-ended // all is done
		}
	}
	reported := make(chan struct{})
	go func() {
		p.report(err)
		close(reported)
	}()
	select {
	case <-reported:
	case <-time.After(grace): // nobody reads what is said
	}
	return exitStatus(err)
}
