package hazard

import "math"

// Shares is, by times of a life, what share of its bound the hazard of a drive has that
// came half-way between time zero and then. The zero value has none.
type Shares struct {
	horizon float64
	of      []float64
}

// times is how many times of a life have a share of their own, and leastShare what it is
// at the least where hazards are reckoned so.
const (
	times      = 32
	leastShare = 0.5
)

// Prepare works the shares out for a life. There are none where drives have no bounds.
func (s *Shares) Prepare(l *Life) {
	s.horizon, s.of = l.horizon, s.of[:0]
	if math.IsInf(l.MaxRate(0, l.horizon), 1) {
		return
	}
	for i := range times {
		age := l.horizon * (float64(i) + 0.5) / times / 2
		share, bound := 1.0, l.MaxRate(0, l.horizon-age)
		if bound > 0 {
			share = l.Rate(age) / bound
		}
		s.of = append(s.of, share)
	}
}

// Any reports whether there are shares: then all drives have bounds.
func (s *Shares) Any() bool { return len(s.of) > 0 }

// At returns what the hazards of young drives are reckoned as at a time, of their bounds; 0
// where they are worked out.
func (s *Shares) At(t float64) float64 {
	if len(s.of) == 0 {
		return 0
	}
	share := s.of[min(times-1, int(t/s.horizon*times))]
	if share < leastShare {
		return 0
	}
	return share
}
