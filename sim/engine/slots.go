package engine

import "context"

// Slots are places for workers: no more of them work at a time than there are
// slots. Nil Slots bound nothing.
type Slots chan struct{}

// NewSlots returns n slots, at least one.
func NewSlots(n int) Slots { return make(Slots, max(1, n)) }

// take waits for a free slot. The error is that of the context, which is looked at in
// any case: one whose Err lets others have their turn is asked often enough for that.
func (s Slots) take(ctx context.Context) error {
	if err := ctx.Err(); err != nil || s == nil {
		return err
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
