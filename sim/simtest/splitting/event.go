package splitting

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// breakDown makes one running drive of a group fail: one of time zero where young is −1.
func (g *group) breakDown(young int) {
	if young < 0 {
		g.fresh--
	} else {
		g.young = append(g.young[:young], g.young[young+1:]...)
	}
	g.pending++
}

// atTolerance takes from a line what a group loses to latent defects that has just come
// to its tolerance.
func (s *simulator) atTolerance(l *line, g *group) {
	if met := s.defectChance(l, g); met > 0 {
		s.lose(l, met)
	}
}

// defectChance returns the chance that a group in which drives failed just now meets a
// latent defect that loses it.
func (s *simulator) defectChance(l *line, g *group) float64 {
	if !s.sys.Stop || s.sys.LatentRate == 0 || g.downNow() < s.sys.Tolerance {
		return 0
	}
	running := float64(s.sys.Drives - g.downNow())
	return -math.Expm1(-running * s.sys.Defects(l.now-g.cleared))
}

// lose adds a loss of that chance, and leaves the line the rest of its weight.
func (s *simulator) lose(l *line, chance float64) {
	s.loss += l.weight * chance
	s.jumped(lost, l.weight*chance)
	l.weight *= 1 - chance
}

// sendForRepair draws the waits of drives that failed just now, those of low groups
// first.
func (s *simulator) sendForRepair(l *line) {
	r := &s.sys.Repair
	for i := range l.groups {
		g := &l.groups[i]
		for ; g.pending > 0; g.pending-- {
			switch {
			case r.Restore != nil:
				g.down = append(g.down, place{doing: queued, at: l.now})
			case len(l.back) < s.sys.Spares:
				if out := s.wait(&r.Restock, l.now); out > 0 {
					l.back = append(l.back, l.now+out)
				}
				g.down = append(g.down, place{doing: queued, at: l.now})
			default:
				notice := r.Notice.Draw(s.rnd)
				g.down = append(g.down, place{doing: waiting, at: l.now + notice + s.wait(&r.Response, l.now+notice)})
			}
		}
		s.startRebuilds(l, g)
	}
}

func (s *simulator) wait(w *model.Wait, from float64) float64 {
	if w.Open != nil {
		return w.Open.From(math.Mod(s.fate.phase+from, law.WeekHours))
	}
	return w.Law.Draw(s.rnd)
}

// startRebuilds starts what may start in a group: in the order in which drives became
// ready.
func (s *simulator) startRebuilds(l *line, g *group) {
	for {
		next, busy := -1, false
		for i, d := range g.down {
			busy = busy || d.doing == rebuilding
			if d.doing == queued && (next < 0 || d.at < g.down[next].at) {
				next = i
			}
		}
		if next < 0 || busy && !s.sys.Repair.Parallel {
			return
		}
		length := s.sys.Repair.Rebuild
		if r := s.sys.Repair.Restore; r != nil {
			length = r.Draw(s.rnd)
		}
		g.down[next] = place{rebuilding, l.now + length, l.now, length}
	}
}

// proceed is the end of the wait or the rebuild of a drive that is down.
func (s *simulator) proceed(l *line, g *group, i int) {
	if g.down[i].doing == waiting {
		g.down[i] = place{doing: queued, at: l.now}
	} else {
		g.down = append(g.down[:i], g.down[i+1:]...)
		g.cleared = l.now
		batch := 1.0
		if v := s.sys.Frailty; v > 0 {
			batch = v * s.rnd.Gamma(1/v)
		}
		g.young = append(g.young, drive{l.now, batch})
	}
	s.startRebuilds(l, g)
}

// strike is a common-cause event that loses no group, and the weight that its draw has.
func (s *simulator) strike(l *line) (weight float64) {
	burst := -1
	if s.rnd.Float64() < 0.5 {
		burst = s.rnd.Intn(len(l.groups))
	}
	raised := 0.0
	for i := range l.groups {
		g := &l.groups[i]
		down := g.downNow()
		chances := s.struck[down]
		k := 0
		if i == burst {
			k = s.rnd.Intn(len(chances))
		} else {
			for u := s.rnd.Float64(); k < len(chances)-1 && u > chances[k]; k++ {
				u -= chances[k]
			}
		}
		raised += 1 / (float64(len(chances)) * chances[k])
		for range k {
			young := s.rnd.Intn(g.fresh+len(g.young)) - g.fresh
			g.breakDown(max(-1, young))
		}
	}
	return 1 / (0.5 + 0.5*raised/float64(len(l.groups)))
}
