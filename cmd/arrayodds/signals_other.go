//go:build !unix

package main

import (
	"os"
	"syscall"
)

// endingSignals are the signals that end the program: Ctrl-C, a wish to end.
func endingSignals() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM} }

// catchBrokenPipe does nothing: no signal tells of broken pipes here.
func catchBrokenPipe() {}

// dieOfBrokenPipe does nothing: a broken pipe is an error like others here.
func dieOfBrokenPipe(program) {}
