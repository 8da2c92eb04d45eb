package divide

import (
	"cmp"
	"maps"
	"slices"
	"sync"
)

// Share is which share of a question a process works out: Number of Of, counted from 1.
type Share struct{ Number, Of int }

// Span returns the blocks of n that are in the share: from, and up to to. Shares differ
// by one block at most, and none is empty where there are as many blocks as shares.
func (s Share) Span(n int) (from, to int) {
	at := func(k int) int { return int(int64(n) * int64(k) / int64(s.Of)) }
	return at(s.Number - 1), at(s.Number)
}

// Has reports whether thing i, counted from 0, is in the share, where things are dealt in
// turn.
func (s Share) Has(i int) bool { return i%s.Of == s.Number-1 }

// Ledger holds what was found of a question: by one process, which puts it in, or by all,
// from where it is read. A nil Ledger is that of a process which does all by itself. It
// may be used by several goroutines at once.
type Ledger struct {
	share Share // zero: of all parts
	mu    sync.Mutex
	found map[string][][]byte // by keys, of each part that has it
}

// Entry is one thing found, as bytes, and what it is of.
type Entry struct {
	Key  string
	Data []byte
}

// NewLedger returns the empty ledger of a process that works out a share.
func NewLedger(share Share) *Ledger {
	return &Ledger{share: share, found: map[string][][]byte{}}
}

// Merge returns the ledger of all parts of a question, given in the order of their
// numbers.
func Merge(parts ...[]Entry) *Ledger {
	l := &Ledger{found: map[string][][]byte{}}
	for _, entries := range parts {
		for _, e := range entries {
			l.found[e.Key] = append(l.found[e.Key], e.Data)
		}
	}
	return l
}

// Dividing reports whether a share is worked out, and not all.
func (l *Ledger) Dividing() bool { return l != nil && l.share.Of > 0 }

// Merging reports whether what is asked for was found already.
func (l *Ledger) Merging() bool { return l != nil && l.share.Of == 0 }

// Share returns which share is worked out: 1 of 1 where that is all.
func (l *Ledger) Share() Share {
	if l.Dividing() {
		return l.share
	}
	return Share{1, 1}
}

// Keep puts something in. What there is already under that key is the same thing.
func (l *Ledger) Keep(key string, data []byte) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.found[key] == nil {
		l.found[key] = [][]byte{data}
	}
}

// Found returns what parts have under a key, in their order.
func (l *Ledger) Found(key string) [][]byte {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.found[key]
}

// Entries returns all that was put in, sorted by keys.
func (l *Ledger) Entries() (all []Entry) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for key, data := range maps.All(l.found) {
		for _, d := range data {
			all = append(all, Entry{key, d})
		}
	}
	slices.SortFunc(all, func(a, b Entry) int { return cmp.Compare(a.Key, b.Key) })
	return all
}
