package engine

import "context"

// Slots are places for workers: no more of them work at a time than there are
// slots. Nil Slots bound nothing.
type Slots chan struct{}

// NewSlots returns n slots, at least one.
func NewSlots(n int) Slots { return make(Slots, max(1, n)) }

// take waits for a free slot. The error is that of the context.
func (s Slots) take(ctx context.Context) error {
	if s == nil {
		return ctx.Err()
	}
	select {
	case s <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// give gives a slot back that was taken.
func (s Slots) give() {
	if s != nil {
		<-s
	}
}
