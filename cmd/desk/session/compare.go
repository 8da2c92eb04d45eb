package session

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
	"arrayodds/sim/study/parts"
)

// Names of the parts of a comparison among files, with a number behind them.
const (
	resultName    = "result"
	replicateName = "replicate"
)

// isPart reports whether a file is a part of a comparison, and so none that a site names.
func isPart(name string) bool {
	_, isResult := numberOf(name, resultName)
	_, isReplicate := numberOf(name, replicateName)
	return isResult || isReplicate
}

// numberOf returns the number of a part by its name.
func numberOf(name, kind string) (n int, ok bool) {
	digits, ok := strings.CutPrefix(name, kind)
	if !ok {
		return 0, false
	}
	n, err := strconv.Atoi(digits)
	return n, err == nil && n >= 0 && strconv.Itoa(n) == digits
}

// partsOf returns the parts of a kind among files, by their numbers, at most so many; nil
// where one is not there.
func partsOf(files map[string][]byte, kind string, most int) [][]byte {
	all := make([][]byte, most)
	for name, data := range files {
		if n, ok := numberOf(name, kind); ok && n < most {
			all[n] = data
		}
	}
	return all
}

// comparing returns what is asked of a site, and a simulator that takes the results that
// came with the request.
func (s *Session) comparing(r request, text string) (study.Request, study.Simulator, error) {
	read, err := s.reading(text, r.files, false)
	if err != nil {
		return study.Request{}, nil, err
	}
	asked := read.request()
	simulate, err := parts.Results(asked, partsOf(r.files, resultName, len(asked.Choices)), sim.Run)
	return asked, simulate, err
}

// lossSoFar is the loss chance of a choice while it is simulated, and at the end.
type lossSoFar struct {
	Choice   int     `json:"choice"`
	Chance   chance  `json:"chance"`
	Odds     string  `json:"odds"`
	Interval string  `json:"interval"`
	Trials   int     `json:"trials"`
	Share    float64 `json:"share"` // of the work expected in all
}

func lossSoFarOf(choice int, e estimate.Estimate, trials int, share float64) lossSoFar {
	return lossSoFar{choice, chanceOf(e), figure.Odds(e), interval(e), trials, share}
}

// simulated is the answer of simulate.
type simulated struct {
	lossSoFar
	Work     int64    `json:"work"` // in units of about 100 ns
	Warnings []string `json:"warnings"`
}

type simulateArgs struct {
	siteArgs
	Choice int `json:"choice"`
}

// simulate simulates one choice as compare does.
func (s *Session) simulate(ctx context.Context, r request) (response, error) {
	var args simulateArgs
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	read, err := s.reading(args.Text, r.files, false)
	if err != nil {
		return response{}, err
	}
	asked := read.request()
	if args.Choice < 0 || args.Choice >= len(asked.Choices) {
		return response{}, fmt.Errorf("found choice %d of %d", args.Choice, len(asked.Choices))
	}
	asked.Options.Progress = func(p engine.Progress) { r.tell(lossSoFarOf(args.Choice, p.Loss, p.Trials, p.Share)) }
	result, err := study.RunChoice(ctx, asked, args.Choice, sim.Run)
	busy, isBusy := errors.AsType[*engine.BusyError](err)
	if err != nil && !isBusy {
		return response{}, err
	}
	return response{
		simulated{lossSoFarOf(args.Choice, result.LossChance, result.Trials, 1), result.Work, orEmpty(result.Warnings)},
		map[string][]byte{resultName: parts.EncodeResult(result, busy)},
	}, nil
}

// replicate works out one replicate of the doubt of a comparison.
func (s *Session) replicate(ctx context.Context, r request) (response, error) {
	var args struct {
		siteArgs
		Replicate int `json:"replicate"`
	}
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	asked, simulate, err := s.comparing(r, args.Text)
	if err != nil {
		return response{}, err
	}
	asked.Options.Progress = func(p engine.Progress) { r.tell(done{p.Share}) }
	found, err := study.RunReplicate(ctx, asked, simulate, args.Replicate)
	if err != nil {
		return response{}, err
	}
	return response{
		struct {
			Replicate int `json:"replicate"`
		}{args.Replicate},
		map[string][]byte{replicateName: parts.EncodeReplicate(found)},
	}, nil
}

// done is how far an answer is.
type done struct {
	Share float64 `json:"share"` // of the work, 0 to 1
}

// compare puts a comparison together of the parts that are there, and works out the
// others.
func (s *Session) compare(ctx context.Context, r request) (response, error) {
	var args siteArgs
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	asked, simulate, err := s.comparing(r, args.Text)
	if err != nil {
		return response{}, err
	}
	if asked.Replicate, err = parts.Replicates(partsOf(r.files, replicateName, study.Replicates)); err != nil {
		return response{}, err
	}
	asked.Options.Progress = func(p engine.Progress) { r.tell(done{p.Share}) }
	c, err := study.Compare(ctx, asked, simulate)
	if err != nil {
		return response{}, err
	}
	s.keep("compare", c)
	return response{answer: comparedOf(c)}, nil
}
