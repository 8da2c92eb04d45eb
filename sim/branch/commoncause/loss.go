package commoncause

import "arrayodds/sim/stream"

// Loss returns the chance that one group at least takes more than it can.
func Loss(hits []Hit) float64 {
	chance := 0.0
	for i := range hits {
		chance = Either(chance, hits[i].Over)
	}
	return chance
}

// Either returns the chance of at least one of two events that are independent, added
// up so that small ones keep their digits.
func Either(p, q float64) float64 { return p + (1-p)*q }

// DrawLoss draws the drives struck in each group, on condition that one group at least is
// struck by more than it can take: by the numbers of the groups into struck, and which
// of the groups is the first that is lost. The groups are independent, so that
// one is drawn first; those before it stand what they are struck by, and those after are
// free.
func (s *Strikes) DrawLoss(rnd *stream.Stream, hits []Hit, struck []int) (lost int) {
	first := firstOver(rnd, hits)
	for i, h := range hits {
		from, to := 0, h.Running
		switch {
		case i < first:
			to = h.Spare
		case i == first:
			from = h.Spare + 1
		}
		struck[h.Group] = s.Law(h.Running).DrawWithin(rnd.Float64(), from, to)
	}
	return hits[first].Group
}

// firstOver draws the first of the groups that takes more than it stands, on condition that
// one does.
func firstOver(rnd *stream.Stream, hits []Hit) int {
	left := rnd.Float64() * Loss(hits)
	none, last := 1.0, 0
	for i, h := range hits {
		if h.Over == 0 {
			continue
		}
		last = i
		if left -= none * h.Over; left < 0 {
			break
		}
		none *= 1 - h.Over
	}
	return last
}
