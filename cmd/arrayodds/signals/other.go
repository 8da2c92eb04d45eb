//go:build !unix

package signals

import (
	"os"
	"syscall"

	"arrayodds/cmd/arrayodds/console"
)

// Ending are the signals that end the program: Ctrl-C, a wish to end.
func Ending() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM} }

// CatchBrokenPipe does nothing: no signal tells of broken pipes here.
func CatchBrokenPipe() {}

// DieOfBrokenPipe does nothing: a broken pipe is an error like others here.
func DieOfBrokenPipe(...*console.Writer) {}
