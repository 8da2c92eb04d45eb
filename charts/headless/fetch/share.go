package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"os/signal"
	"syscall"
	"time"

	"arrayodds/charts/headless"
)

// endTime is what a command that is interrupted has to end by itself.
const endTime = 10 * time.Second

// share runs a command with a browser that all tests in it have, and returns the
// command's exit status, or 1 and an error.
func share(name string, args ...string) (status int, err error) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	profile, err := os.MkdirTemp("", "arrayodds-profile-")
	if err != nil {
		return 1, err
	}
	defer os.RemoveAll(profile)
	var browser *headless.Browser
	var variable string
	_, err = browserFor(func(path string) (err error) {
		browser, variable, err = headless.Share(path, profile)
		return err
	})
	if err != nil {
		return 1, err
	}
	defer browser.Close()
	c := exec.CommandContext(ctx, name, args...)
	c.Cancel = func() error { return c.Process.Signal(os.Interrupt) }
	c.WaitDelay = endTime
	c.Env = append(os.Environ(), variable)
	c.Stdin, c.Stdout, c.Stderr = os.Stdin, os.Stdout, os.Stderr
	err = c.Run()
	if failed := (*exec.ExitError)(nil); errors.As(err, &failed) {
		return max(failed.ExitCode(), 1), nil
	}
	if err != nil {
		return 1, err
	}
	return 0, nil
}
