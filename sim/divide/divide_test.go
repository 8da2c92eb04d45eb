package divide

import (
	"bytes"
	"math/big"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"

	"pgregory.net/rapid"
)

var system = &model.System{Horizon: 20_000, Life: law.Constant{PerHour: 1e-6}}

// blocksOf returns sums of so many blocks, of which the additions round.
func blocksOf(t *rapid.T, n int) []*model.Sums {
	all := make([]*model.Sums, n)
	for i := range all {
		s := model.NewSums(system)
		s.N, s.Work = 128, int64(i)
		for q := range s.Sum {
			s.Sum[q] = rapid.Float64Range(1e-12, 1).Draw(t, "amount")
		}
		s.Curve[1] = rapid.Float64Range(1e-12, 1).Draw(t, "chance")
		s.Largest = s.Sum[0]
		all[i] = s
	}
	return all
}

// treeOf returns the tree of blocks from one up to another.
func treeOf(blocks []*model.Sums, from, to int) *Tree {
	t := NewTree(system)
	for i := from; i < to; i++ {
		t.Add(i, blocks[i])
	}
	return t
}

func bytesOf(s *model.Sums) []byte {
	data, _ := s.AppendBinary(nil) // it has no error
	return data
}

// However many parts there are, what they found is that of one process, bit by bit; and
// it is the sum of all blocks but for rounding, by arithmetic of 200 bits.
func TestPartsOfARunAreTheRun(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "blocks")
		of := rapid.IntRange(1, n).Draw(t, "parts")
		blocks := blocksOf(t, n)
		want := treeOf(blocks, 0, n).Total()
		var parts [][]Entry
		next := 0
		for i := range of {
			l := NewLedger(Share{i + 1, of})
			from, to := l.Share().Span(n)
			if from != next || to-from < n/of || to-from > n/of+1 {
				t.Fatalf("part %d of %d has blocks %d to %d of %d", i+1, of, from, to, n)
			}
			next = to
			tree := treeOf(blocks, from, to)
			if len(tree.nodes) > 12 { // two of each level
				t.Errorf("%d nodes", len(tree.nodes))
			}
			l.KeepRun("key", tree, true)
			parts = append(parts, l.Entries())
		}
		got, busy, err := Merge(parts...).FoundRun("key", system, n)
		if err != nil || busy || !got.Plain || !bytes.Equal(bytesOf(got), bytesOf(want)) {
			t.Fatalf("%v, %v\n%+v\n%+v", busy, err, got, want)
		}
		exact := new(big.Float).SetPrec(200)
		for _, b := range blocks {
			exact.Add(exact, new(big.Float).SetFloat64(b.Sum[0]))
		}
		if sum, _ := exact.Float64(); want.Sum[0] < sum*(1-1e-15*8) || want.Sum[0] > sum*(1+1e-15*8) {
			t.Errorf("%v is the sum, found %v", sum, want.Sum[0])
		}
		if of > 1 {
			lost := rapid.IntRange(0, of-1).Draw(t, "lost")
			some := append(append([][]Entry{}, parts[:lost]...), parts[lost+1:]...)
			if _, _, err := Merge(some...).FoundRun("key", system, n); err == nil {
				t.Errorf("part %d of %d is not missed", lost+1, of)
			}
		}
	})
}

func TestBusyPartIsABusyRun(t *testing.T) {
	t.Parallel()
	fine, busy := NewLedger(Share{1, 2}), NewLedger(Share{2, 2})
	fine.KeepRun("key", treeOf([]*model.Sums{model.NewSums(system)}, 0, 1), false)
	busy.KeepBusy("key")
	if _, got, err := Merge(fine.Entries(), busy.Entries()).FoundRun("key", system, 2); !got || err != nil {
		t.Errorf("busy %v, %v", got, err)
	}
}

// Things are dealt so that each is in one share.
func TestEveryThingIsInOneShare(t *testing.T) {
	t.Parallel()
	for of := 1; of < 9; of++ {
		for i := range 30 {
			in := 0
			for k := range of {
				if (Share{k + 1, of}).Has(i) {
					in++
				}
			}
			if in != 1 {
				t.Errorf("thing %d is in %d of %d shares", i, in, of)
			}
		}
	}
}

// A key is that of values, not of where they lie; and every field is in it.
func TestKeyIsOfValues(t *testing.T) {
	t.Parallel()
	copied := *system
	if KeyOf("run", system, uint64(1)) != KeyOf("run", &copied, uint64(1)) {
		t.Error("equal systems have different keys")
	}
	others := map[string]string{}
	for name, key := range map[string]string{
		"itself": KeyOf("run", system, uint64(1)), "seed": KeyOf("run", system, uint64(2)), "question": KeyOf("point", system, uint64(1)),
		"life":   KeyOf("run", &model.System{Horizon: 20_000, Life: law.Constant{PerHour: 2e-6}}, uint64(1)),
		"law":    KeyOf("run", &model.System{Horizon: 20_000, Life: law.Weibull{Shape: 1e-6}}, uint64(1)),
		"no law": KeyOf("run", &model.System{Horizon: 20_000}, uint64(1)),
		"drives": KeyOf("run", &model.System{Horizon: 20_000, Life: law.Constant{PerHour: 1e-6}, Drives: 1}, uint64(1)),
	} {
		if other, there := others[key]; there {
			t.Errorf("%s and %s have one key", name, other)
		}
		others[key] = name
	}
}
