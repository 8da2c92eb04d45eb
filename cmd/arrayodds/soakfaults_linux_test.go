package main

import (
	"hash/fnv"
	"io"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// soakFaults are faults of which each time another comes: how much room is left, when the
// end comes, how much memory there is. They stand beside [faultPromises].
var soakFaults = []promise{
	{"disk becomes full somewhere", diskFullSomewhere, writesFiles, anyStatus, "old or new"},
	{"files may grow so far", fileLimitSomewhere, writesFiles, anyStatus, "old or new"},
	{"SIGTERM at a random moment", endedSomewhen, writesFiles, anyStatus, "old or new"},
	{"memory ends somewhere", memoryLimitSomewhere, everyCommand, anyStatus, "old or new"},
}

// drawn returns a source of random numbers, each command line with its own inputs its own.
func (r *faultRun) drawn() *rand.Rand {
	h := fnv.New64()
	_, _ = io.WriteString(h, strings.Join(r.args(r.command.input), " ")+r.inputs[r.command.input]) // a hash takes all
	return rand.New(rand.NewPCG(h.Sum64(), 1))
}

// bytes returns how much the outputs are, and the largest of them.
func (r *faultRun) bytes() (sum, largest int) {
	for _, text := range r.new {
		sum += len(text)
		largest = max(largest, len(text))
	}
	return sum, largest
}

// checkEither looks whether a run that may fail did all or nothing, and says so.
func (r *faultRun) checkEither(got faultOutcome) faultOutcome {
	r.Helper()
	want := map[int]string{exitOK: "new", exitFailed: "old"}[got.status]
	if state := r.state(); writesFiles(r.command) && state != want {
		r.Errorf("exit status %d, and files are %s\n%s", got.status, state, got.stderr)
	}
	return got
}

// diskFullSomewhere has room for a part of what is written, or for all.
func diskFullSomewhere(r *faultRun) faultOutcome {
	sum, _ := r.bytes()
	r.mount(strconv.Itoa(16<<10 + r.drawn().IntN(sum+sum/2)))
	return r.checkEither(undisturbed(r))
}

func fileLimitSomewhere(r *faultRun) faultOutcome {
	_, largest := r.bytes()
	return r.checkEither(r.wait(r.start(r.cmd("ulimit -f "+strconv.Itoa(r.drawn().IntN(1+largest/400))+"; ")), tooLong)) // of 512 bytes
}

// endedSomewhen ends the command at a random moment of its run, in the way that lets it
// say so.
func endedSomewhen(r *faultRun) faultOutcome {
	begin := time.Now()
	undisturbed(r)
	whole := time.Since(begin)
	for _, f := range r.command.formats {
		r.check(os.RemoveAll(r.path("out/x." + f)))
	}
	r.layOut()
	s := r.start(r.cmd(""))
	<-time.After(time.Duration(r.drawn().Float64() * float64(whole)))
	_ = s.Process.Signal(syscall.SIGTERM) // it may have ended
	got := r.wait(s, tooLong)
	if got.status == 128+int(syscall.SIGTERM) { // before it was up
		if state := r.state(); state != "old" {
			r.Errorf("ended before it began, and files are %s", state)
		}
		return got
	}
	return r.checkEither(got)
}

// memoryLimitSomewhere gives the process so much room for addresses that it has too little
// from its start on, or in its midst, or enough. Go's runtime, which cannot go on without
// memory, then ends the program with its own words and with status 2.
func memoryLimitSomewhere(r *faultRun) faultOutcome {
	got := r.wait(r.start(r.cmd("ulimit -v "+strconv.Itoa(500_000+r.drawn().IntN(1_500_000))+"; ")), tooLong) // KiB
	ended := got.status == exitUsage || got.status == 128+int(syscall.SIGABRT) || got.status == 128+int(syscall.SIGSEGV)
	if !ended {
		return r.checkEither(got)
	}
	said := strings.Contains(got.stderr, "fatal error: ") || strings.Contains(got.stderr, "runtime: ") || strings.Contains(got.stderr, "runtime/cgo: ")
	if state := r.state(); !said || writesFiles(r.command) && state != "old" {
		r.Errorf("exit status %d, and files are %s\n%s", got.status, state, got.stderr)
	}
	got.stderr = "" // the runtime's, with all that was under way
	return got
}
