package branch

import "arrayodds/sim/law"

// Of the young drives of a large degraded group it would take long to work out what hazard
// they pass through, window by window. So a window reckons with a hazard for them that is
// known at once, the sum of their bounds times the share of it that such drives have in
// the mean, and what comes of it is weighed for what they really have:
//
//   - A failure of one of them, picked by its bound, weighs its own share ÷ that of the
//     mean.
//   - To pass x hours weighs, for each of the candidates that come at the sum of the bounds
//     within x, 1 + the share of the mean − that of a drive picked by its bound. The mean of
//     that is exp(∫ reckoned − real), whatever the share of the mean is (A. Beskos et al.,
//     "Exact and computationally efficient likelihood-based estimation for discretely
//     observed diffusion processes", Journal of the Royal Statistical Society B 68(3), 2006,
//     section 4; from memory). Candidates are few, and what they weigh is near 1.

// A passing is a candidate in a window.
type passing struct{ at, factor float64 }

// prepareShares works out the shares of this life: none where too few drives can be young,
// or where those of time zero pass for young.
func (b *Simulator) prepareShares() {
	sys := b.sys
	if b.perHour == 0 && sys.Drives >= 2*fewYoung && sys.Start == nil && !sys.SeveralBatches() {
		b.shares.Prepare(b.life)
	}
}

// bounded reports whether the hazard of the young drives of a group is reckoned by their
// bounds in the window that begins now.
func (b *Simulator) bounded(l *line, g int) bool {
	grp := &l.groups[g]
	return grp.running > grp.original && b.shares.At(l.now) > 0
}

// throughBounds returns the hazard that the young drives of such a group are reckoned with
// for x hours, but for what multiplies those of all drives.
func (b *Simulator) throughBounds(l *line, g int, x float64) law.Stretch {
	rate := b.shares.At(l.now) * l.groups[g].bounds
	return law.Stretch{Over: rate * x, First: rate, Last: rate}
}

// drawPassings draws the candidates of the window, where the bounds of its groups add up
// to bounds.
func (b *Simulator) drawPassings(l *line, bounds float64) {
	win := &b.win
	for x := b.rnd.Exp() / bounds; x < win.dt; x += b.rnd.Exp() / bounds {
		i := b.pickYoung(l, 0, func(y *youngDrive) float64 {
			if grp := &l.groups[y.group]; grp.looked == b.looks && b.bounded(l, y.group) {
				return b.sys.Degraded[grp.level] * y.bound
			}
			return 0
		})
		y := &l.young[i]
		win.passings = append(win.passings, passing{x, 1 + b.shares.At(l.now) - b.rateOf(l, y, x)/y.bound})
	}
}

// passed returns what it weighs that the window was passed for x hours: 1 where all hazards
// are worked out.
func (b *Simulator) passed(x float64) float64 {
	weight := 1.0
	for _, p := range b.win.passings {
		if p.at < x {
			weight *= p.factor
		}
	}
	return weight
}

// pickBounded chooses the drive of such a group that fails x hours from now, as pickDrive
// does, with what that weighs.
func (b *Simulator) pickBounded(l *line, g int, x float64) (young int, weight float64) {
	share := b.shares.At(l.now)
	old := b.rateOfOriginals(l, l.groups[g].original, x) / share
	left := b.rnd.Float64()*(old+l.groups[g].bounds) - old
	if left < 0 {
		return none, 1
	}
	young = l.byBound(g, left)
	y := &l.young[young]
	return young, b.rateOf(l, y, x) / y.bound / share
}

// byBound returns the young drive of a group at which the sum of their bounds passes left.
func (l *line) byBound(g int, left float64) (young int) {
	for i := range l.young {
		if y := &l.young[i]; y.group == g && y.bound > 0 {
			young = i
			if left -= y.bound; left < 0 {
				break
			}
		}
	}
	return young
}

// unreckoned returns the hazard per hour of a group x hours from now less that with which it
// is reckoned, by one of its young drives: right in the mean.
func (b *Simulator) unreckoned(l *line, g int, x float64) float64 {
	if !b.bounded(l, g) {
		return 0
	}
	grp := &l.groups[g]
	y := &l.young[l.byBound(g, b.rnd.Float64()*grp.bounds)]
	return b.rate * b.sys.Degraded[grp.level] * grp.bounds * (b.rateOf(l, y, x)/y.bound - b.shares.At(l.now))
}
