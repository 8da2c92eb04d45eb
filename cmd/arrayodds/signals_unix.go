//go:build unix

package main

import (
	"errors"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// endingSignals are the signals that end the program: Ctrl-C, a wish to end, the
// terminal gone. nohup has the last one ignored, and so it stays.
func endingSignals() []os.Signal {
	all := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		all = append(all, syscall.SIGHUP)
	}
	return all
}

// catchBrokenPipe makes of a broken pipe an error of writing, so that temporary
// files are removed before the program dies of it.
func catchBrokenPipe() { signal.Notify(make(chan os.Signal, 1), syscall.SIGPIPE) }

// dieOfBrokenPipe ends the program as a write to a broken pipe ends one that has
// caught no signal, if standard output or standard error is such a pipe.
func dieOfBrokenPipe(p program) {
	signal.Reset(syscall.SIGPIPE)
	for _, w := range []io.Writer{p.out, p.err} {
		c, ok := w.(*checkedWriter)
		if ok && errors.Is(c.err, syscall.EPIPE) {
			_, _ = c.w.Write([]byte("\n")) // the Go runtime raises the signal itself
		}
	}
}
