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
)

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
