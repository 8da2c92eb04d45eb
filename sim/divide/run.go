package divide

import "arrayodds/sim/model"

// run is what a part has of a run, as it is coded.
type run struct {
	Plain bool // of plain lives
	Busy  bool // a block of it could not be simulated
	Nodes []codedNode
}

type codedNode struct {
	Level, Index int
	Sums         string // as bytes
}

// KeepRun keeps the blocks of a run that are in the share.
func (l *Ledger) KeepRun(key string, t *Tree, plain bool) {
	out := run{Plain: plain}
	for _, n := range t.nodes {
		data, _ := n.sums.AppendBinary(nil) // it has no error
		out.Nodes = append(out.Nodes, codedNode{n.Level, n.Index, string(data)})
	}
	l.Keep(key, Encode(out))
}

// KeepBusy keeps that a block of a run in the share could not be simulated.
func (l *Ledger) KeepBusy(key string) { l.Keep(key, Encode(run{Busy: true})) }

// mostLevel is above the level of any node: nobody has 2^40 blocks.
const mostLevel = 40

// FoundRun returns the sums of all blocks of a run, of which there are that many; busy
// says that one of them could not be simulated. An error is an [UnfitError].
func (l *Ledger) FoundRun(key string, sys *model.System, blocks int) (sums *model.Sums, busy bool, err error) {
	t, next, plain := NewTree(sys), 0, false
	for _, data := range l.Found(key) {
		r, err := Decode[run](data)
		if err != nil {
			return nil, false, err
		}
		if r.Busy {
			return nil, true, nil
		}
		plain = r.Plain
		for _, n := range r.Nodes {
			if n.Level < 0 || n.Level > mostLevel || n.Index < 0 || n.Index > blocks>>n.Level {
				return nil, false, unfitf("found a part of more blocks than there are")
			}
			own := node{n.Level, n.Index, model.NewSums(sys)}
			if err := own.sums.UnmarshalBinary([]byte(n.Sums)); err != nil {
				return nil, false, &UnfitError{err}
			}
			if own.begins() != next {
				return nil, false, unfitf("found parts that have no block %d of a run", next)
			}
			next = own.ends()
			t.push(own)
		}
	}
	if next != blocks {
		return nil, false, unfitf("found parts of %d blocks of a run; right would be %d", next, blocks)
	}
	sums = t.Total()
	sums.Plain = plain
	return sums, false, nil
}
