package parts

import (
	"context"
	"fmt"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/divide"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// result is what is coded of a choice.
type result struct {
	Result sim.Result
	Busy   *engine.BusyError
}

// EncodeResult codes what a run of a choice returned: its result, and the error of one
// that was too busy; nil where it was not.
func EncodeResult(r sim.Result, busy *engine.BusyError) []byte { return divide.Encode(result{r, busy}) }

// DecodeResult returns what [EncodeResult] coded. The error is that of other data.
func DecodeResult(data []byte) (sim.Result, *engine.BusyError, error) {
	r, err := divide.Decode[result](data)
	return r.Result, r.Busy, err
}

// EncodeReplicate codes a replicate of a comparison's doubt.
func EncodeReplicate(r study.Replicate) []byte { return divide.Encode(r) }

// DecodeReplicate returns what [EncodeReplicate] coded. The error is that of other data.
func DecodeReplicate(data []byte) (study.Replicate, error) {
	return divide.Decode[study.Replicate](data)
}

// Results returns a simulator for the choices of a request that takes coded results, by
// the places of the choices in the request; where one is nil, otherwise simulates it.
func Results(asked study.Request, coded [][]byte, otherwise study.Simulator) (study.Simulator, error) {
	type known struct {
		sim.Result
		busy *engine.BusyError
	}
	byLabel := map[string]known{} // labels of choices differ
	for i, data := range coded {
		if data == nil {
			continue
		}
		if i >= len(asked.Choices) {
			return nil, fmt.Errorf("found a result of choice %d; right would be one of %d choices", i, len(asked.Choices))
		}
		r, busy, err := DecodeResult(data)
		if err != nil {
			return nil, fmt.Errorf("result of choice %d: %w", i, err)
		}
		label := asked.Source.File().Site.Choices[asked.Choices[i]].Label
		byLabel[label] = known{r, busy}
	}
	return func(ctx context.Context, s array.Site, c array.Choice, opt engine.Options) (sim.Result, error) {
		r, ok := byLabel[c.Label]
		switch {
		case !ok:
			return otherwise(ctx, s, c, opt)
		case r.busy != nil:
			return r.Result, r.busy
		}
		return r.Result, nil
	}, nil
}

// Replicates returns what gives coded replicates, by their numbers, to [study.Request].
func Replicates(coded [][]byte) (func(r int) *study.Replicate, error) {
	var all [study.Replicates]*study.Replicate
	for r, data := range coded {
		if data == nil {
			continue
		}
		if r >= len(all) {
			return nil, fmt.Errorf("found replicate %d; right would be one of %d", r, len(all))
		}
		found, err := DecodeReplicate(data)
		if err != nil {
			return nil, fmt.Errorf("replicate %d: %w", r, err)
		}
		all[r] = &found
	}
	return func(r int) *study.Replicate { return all[r] }, nil
}
