package sweep

import (
	"context"
	"fmt"
	"math"

	"arrayodds/sim/divide"
	"arrayodds/sim/engine"
	"arrayodds/sim/model"
)

// TooManyError says that a series has fewer systems than there are shares of it.
type TooManyError struct{ Shares, Systems int }

func (e *TooManyError) Error() string {
	return fmt.Sprintf("found %d parts; right would be at most %d, one for each system that is to be simulated", e.Shares, e.Systems)
}

// runFixed gives every point a fixed number of blocks: those in the share that is to be
// worked out, or what all parts found. The error of a share that is done is
// [engine.ErrPart].
func (s *Series) runFixed(ctx context.Context) error {
	s.work = math.MaxInt64
	ledger := s.opt.Ledger
	keys := make([]string, len(s.unique))
	if ledger != nil {
		for i, m := range s.unique {
			keys[i] = divide.KeyOf("point", m.sys, s.opt.Seed, s.opt.Blocks, s.opt.Plain, s.opt.Branching)
		}
	}
	if ledger.Merging() {
		for i, m := range s.unique {
			if err := m.found(ledger.Found(keys[i])); err != nil {
				return err
			}
		}
		return nil
	}
	share := ledger.Share()
	if share.Of > len(s.unique) {
		return &TooManyError{share.Of, len(s.unique)}
	}
	var own []*member
	for i, m := range s.unique {
		if share.Has(i) {
			own = append(own, m)
		}
	}
	pool := newPool(s)
	// The first blocks tell how many make a piece, and whether a point can be simulated.
	for _, blocks := range []int{min(firstRound, s.budget), s.budget} {
		if err := pool.do(ctx, s.piecesOf(own, blocks)); err != nil {
			return err
		}
	}
	s.report(1)
	if !ledger.Dividing() {
		return nil
	}
	for i, m := range s.unique {
		if share.Has(i) {
			ledger.Keep(keys[i], m.coded())
		}
	}
	return engine.ErrPart
}

// codedMember is a system's sums, as they are coded.
type codedMember struct {
	Busy    bool // it could not be simulated
	Plain   bool
	Blocks  int
	Sums    string // as bytes
	Bundles []codedBundle
}

type codedBundle struct {
	Loss     float64
	Controls []float64
}

// coded returns the sums of a system as bytes.
func (m *member) coded() []byte {
	out := codedMember{Busy: m.err != nil}
	if !out.Busy {
		data, _ := m.sums.AppendBinary(nil) // it has no error
		out.Plain, out.Blocks, out.Sums = m.sums.Plain, m.blocks, string(data)
		for i := range m.bundle {
			out.Bundles = append(out.Bundles, codedBundle{m.bundle[i].Loss, m.bundle[i].Controls[:]})
		}
	}
	return divide.Encode(out)
}

// found fills in what coded made, of the one part that has it. An error is a
// [divide.UnfitError].
func (m *member) found(data [][]byte) error {
	in, err := divide.One[codedMember](data, fmt.Sprintf("a system of %q", m.curve.label))
	if err != nil {
		return err
	}
	if in.Busy {
		busy := engine.NewBusyError(m.sys)
		busy.Choice = m.curve.label
		m.err = busy
		return nil
	}
	m.sums = model.Sums{}
	if err := m.sums.UnmarshalBinary([]byte(in.Sums)); err != nil {
		return &divide.UnfitError{Why: err}
	}
	m.sums.Plain, m.blocks = in.Plain, in.Blocks
	if len(in.Bundles) != len(m.bundle) {
		return &divide.UnfitError{Why: fmt.Errorf("found %d bundles of a system; right would be %d", len(in.Bundles), len(m.bundle))}
	}
	for i, b := range in.Bundles {
		if copy(m.bundle[i].Controls[:], b.Controls) != len(m.bundle[i].Controls) {
			return &divide.UnfitError{Why: fmt.Errorf("found %d controls of a bundle; right would be %d", len(b.Controls), len(m.bundle[i].Controls))}
		}
		m.bundle[i].Loss = b.Loss
	}
	return nil
}
