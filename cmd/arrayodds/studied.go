package main

import (
	"context"
	"errors"
	"io"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
	"arrayodds/sim/trace"

	"github.com/urfave/cli/v2"
)

// besides is where a page goes that is not the report: the site file's name with
// its kind behind it.
func besides(path, kind string) string {
	if path == stdio {
		return kind + ".html"
	}
	return strings.TrimSuffix(path, ".toml") + "-" + kind + ".html"
}

// misplacedBeside is misplaced for what comes of a site file, with the schedule
// that it may name.
func misplacedBeside[R any](p program, outs []output[R], path string, file *site.File) refused {
	return append(misplaced(p, outs, path, "the site file"), overSchedule(outs, path, file)...)
}

// choicesOf is the places of the choices that --choice names, all where it is not
// given.
func choicesOf(c *cli.Context, all []array.Choice) (places []int, faults refused) {
	if !c.IsSet("choice") {
		for i := range all {
			places = append(places, i)
		}
		return places, nil
	}
	for _, label := range c.StringSlice("choice") {
		place, more := choiceOf("choice", label, all)
		faults = append(faults, more...)
		if more == nil {
			places = with(places, place)
		}
	}
	return places, faults
}

// choiceOf is the place of a choice by its label.
func choiceOf(flag, label string, all []array.Choice) (int, refused) {
	var labels []string
	for i, c := range all {
		if c.Label == strings.TrimSpace(label) {
			return i, nil
		}
		labels = append(labels, c.Label)
	}
	return -1, refuse("--%s: no choice is called %q; right would be one of %s%s", flag, label, strings.Join(quotedAll(labels), ", "), didYouMean(label, labels, ""))
}

// quotedAll is labels in quotes, as many as a line has room for.
func quotedAll(labels []string) []string {
	const most = 12
	var out []string
	for i, l := range labels {
		if i == most {
			return append(out, "…")
		}
		out = append(out, `"`+l+`"`)
	}
	return out
}

// with puts a place among others, in order and once.
func with(places []int, place int) []int {
	if slices.Contains(places, place) {
		return places
	}
	places = append(slices.Clone(places), place)
	slices.Sort(places)
	return places
}

// toTeach is the choice that a lesson is about where none is named: the first
// that has redundancy and holds the footage; else the first with redundancy; else
// the first.
func toTeach(s array.Site) int {
	best, rank := 0, 0
	for i, c := range s.Choices {
		z, err := s.Size(c)
		if err != nil || !z.Shape.Rebuilds() {
			continue
		}
		r := 1
		if z.Meets {
			r = 2
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

// produce works something out with a progress bar, writes it in all its forms, and
// tells it.
func produce[R any](ctx context.Context, p program, outs []output[R], a study.Request, work func(context.Context, study.Request) (R, error), words func(io.Writer, R) error) error {
	bar := newProgress(p.err, 1)
	a.Options.Progress = bar.of(0)
	found, err := work(ctx, a)
	bar.end() // before anything is told
	if err != nil {
		return blamed(err)
	}
	standard, err := deliver(ctx, outs, found)
	if err != nil {
		return err
	}
	return tell(p, outs, standard, func(w io.Writer) error { return words(w, found) })
}

// blamed makes of an error that the input is to blame for one that says so.
func blamed(err error) error {
	if errs, ok := errors.AsType[site.Errors](err); ok {
		return siteFaults(errs)
	}
	if much, ok := errors.AsType[*study.LimitError](err); ok {
		return refuse("%v", much)
	}
	if busy, ok := errors.AsType[*engine.BusyError](err); ok {
		return refused{busy.Error()}
	}
	if long, ok := errors.AsType[*trace.LongLifeError](err); ok {
		return refused{long.Error()}
	}
	if errors.Is(err, trace.ErrNoLoss) {
		return refuse("%v; right would be --only-losses for a choice that can lose footage, or more trials", err)
	}
	return err
}
