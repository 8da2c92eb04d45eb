package trace

import (
	"arrayodds/sim/history"
	"arrayodds/sim/model"
)

// destroy fills in the camera-hours that each event destroys, and returns their sum.
func destroy(sys *model.System, events []history.Event) (total float64) {
	f := &sys.Footage
	if !f.Cameras() {
		return 0
	}
	var sharing model.Sharing
	sharing.Reset(sys.Sets)
	since, up := make([]float64, sys.Sets), sys.Sets
	for i := range events {
		e := &events[i]
		switch e.Kind {
		case history.LosesSet:
			e.Destroyed, _ = f.Loss(e.At, since[e.Set], &sharing)
			up--
			sharing.Change(f, e.At, up)
		case history.StartsAgain:
			since[e.Set] = e.At
			up++
			sharing.Change(f, e.At, up)
		case history.MeetsDefects, history.MeetsSector:
			if !sys.Stop {
				each, _ := f.Stripe(e.At)
				e.Destroyed = float64(e.Count) * each
			}
		}
		total += e.Destroyed
	}
	return total
}
