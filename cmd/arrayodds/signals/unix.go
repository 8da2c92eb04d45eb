//go:build unix

package signals

import (
	"errors"
	"os"
	"os/signal"
	"syscall"

	"arrayodds/cmd/arrayodds/console"
)

// Ending are the signals that end the program: Ctrl-C, a wish to end, the
// terminal gone. nohup has the last one ignored, and so it stays.
func Ending() []os.Signal {
	all := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		all = append(all, syscall.SIGHUP)
	}
	return all
}

// CatchBrokenPipe makes of a broken pipe an error of writing, so that temporary
// files are removed before the program dies of it.
func CatchBrokenPipe() { signal.Notify(make(chan os.Signal, 1), syscall.SIGPIPE) }

// DieOfBrokenPipe ends the program as a write to a broken pipe ends one that has
// caught no signal, if one of these streams is such a pipe.
func DieOfBrokenPipe(streams ...*console.Writer) {
	signal.Reset(syscall.SIGPIPE)
	for _, w := range streams {
		if errors.Is(w.Err(), syscall.EPIPE) {
			_, _ = w.Write([]byte("\n")) // the Go runtime raises the signal itself
		}
	}
}
