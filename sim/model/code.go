package model

import (
	"encoding/binary"
	"errors"
	"math"
)

// numbers calls each with every number that makes up sums, in one order, but for Work,
// which is whole. What only a run needs (the trial, the batch that was begun, bounds) is
// none of them.
func (s *Sums) numbers(each func(*float64)) {
	all := func(xs []float64) {
		for i := range xs {
			each(&xs[i])
		}
	}
	of := func(p *products) {
		each(&p.square)
		each(&p.tiny)
		all(p.cross[:])
	}
	each(&s.N)
	each(&s.Largest)
	all(s.Sum[:])
	all(s.ByCause[:])
	all(s.Controls[:])
	for c := range s.controlCross {
		all(s.controlCross[c][:])
	}
	for q := range s.amounts {
		of(&s.amounts[q])
	}
	of(&s.losses)
	for c := range s.causes.square {
		all(s.causes.square[c][:])
		all(s.causes.tiny[c][:])
	}
	all(s.Curve)
	for i := range s.curve {
		of(&s.curve[i])
		y := &s.years[i]
		all(y.sum[:])
		all(y.loss[:])
		for c := range y.own {
			all(y.own[c][:])
			all(y.cross[c][:])
		}
	}
	all(s.Steps)
	for i := range s.steps {
		of(&s.steps[i])
	}
	for _, h := range []*Histogram{&s.Failures, &s.PerLoss} {
		all(h.Weights)
		all(h.Squares)
	}
}

// lengths returns how many years, steps and bins of the two histograms there are.
func (s *Sums) lengths() [4]int {
	return [4]int{len(s.Curve), len(s.Steps), len(s.Failures.Weights), len(s.PerLoss.Weights)}
}

// AppendBinary appends sums of whole batches, bit by bit, so that others can be added to
// them elsewhere. Whether they are of plain lives is not among it. The error is nil.
func (s *Sums) AppendBinary(to []byte) ([]byte, error) {
	to = binary.AppendVarint(to, s.Work)
	for _, n := range s.lengths() {
		to = binary.AppendUvarint(to, uint64(n))
	}
	s.numbers(func(x *float64) { to = binary.LittleEndian.AppendUint64(to, math.Float64bits(*x)) })
	return to, nil
}

// UnmarshalBinary fills empty sums with what [Sums.AppendBinary] made of others of the
// same system, as [NewSums] makes them, or of figures alone, as [Sums.AddFigures] has
// them: then s is the zero Sums. The error is that of other data.
func (s *Sums) UnmarshalBinary(data []byte) error {
	misfit := errors.New("found other data; right would be the sums of lives of the system that is asked for")
	work, n := binary.Varint(data)
	if n <= 0 {
		return misfit
	}
	s.Work, data = work, data[n:]
	var lengths [4]int
	for i := range lengths {
		length, n := binary.Uvarint(data)
		if n <= 0 || length > uint64(len(data)) {
			return misfit
		}
		lengths[i], data = int(length), data[n:]
	}
	own := s.lengths()
	if lengths[0] != own[0] || lengths[1] != own[1] {
		return misfit
	}
	if 16*(uint64(lengths[2])+uint64(lengths[3])) > uint64(len(data)) { // each bin has two numbers
		return misfit
	}
	s.Failures.grow(lengths[2])
	s.PerLoss.grow(lengths[3])
	short := false
	s.numbers(func(x *float64) {
		if short = short || len(data) < 8; !short {
			*x, data = math.Float64frombits(binary.LittleEndian.Uint64(data)), data[8:]
		}
	})
	if short || len(data) > 0 {
		return misfit
	}
	return nil
}
