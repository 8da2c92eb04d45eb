package history

import "testing"

// Events do not go back in time, not even by what rounding does, and a record that is
// full takes no more of them and says so.
func TestRecord(t *testing.T) {
	t.Parallel()
	var r Record
	r.Add(Event{At: 5, Kind: Fails})
	r.Add(Event{At: 5 - 1e-12, Kind: Arrives})
	r.Add(Event{At: 7, Kind: Rebuilds})
	for i, want := range []Event{{At: 5, Kind: Fails}, {At: 5, Kind: Arrives}, {At: 7, Kind: Rebuilds}} {
		if r.Events[i] != want {
			t.Errorf("event %d is %+v, should be %+v", i, r.Events[i], want)
		}
	}
	for len(r.Events) < MaxEvents {
		r.Add(Event{At: 8})
	}
	if r.Full {
		t.Error("full, though all were taken")
	}
	r.Add(Event{At: 9})
	if !r.Full || len(r.Events) != MaxEvents {
		t.Errorf("%d events, full: %t", len(r.Events), r.Full)
	}
}
