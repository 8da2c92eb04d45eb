package engine

import (
	"syscall"
	"time"
)

// processorTime returns what this process has had of the processors so far: unlike the
// time of a clock, it is hardly longer where others use them too.
func processorTime() time.Duration {
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		panic(err)
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}
