//go:build !linux

package engine

import "time"

var began = time.Now()

// processorTime returns the time of the clock, where that of the processors is not
// known how to be asked for.
func processorTime() time.Duration { return time.Since(began) }
