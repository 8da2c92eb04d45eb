package branch

// over returns the cumulative hazard of a degraded group's running drives in the next
// dt hours.
func (b *Simulator) over(l *line, g int, dt float64) float64 {
	grp := &l.groups[g]
	scale := b.rate * b.sys.Degraded[grp.level]
	if b.perHour > 0 {
		return scale * b.perHour * float64(grp.running) * dt
	}
	sum := 0.0
	if grp.original > 0 {
		sum = b.batch * float64(grp.original) * b.life.Over(l.now, dt)
	}
	if grp.running > grp.original {
		for i := range l.young {
			if y := &l.young[i]; y.group == g {
				sum += y.batch * b.life.Over(l.now-y.install, dt)
			}
		}
	}
	return scale * sum
}

// rateAt returns the hazard per hour of a degraded group x hours from now.
func (b *Simulator) rateAt(l *line, g int, x float64) float64 {
	grp := &l.groups[g]
	scale := b.rate * b.sys.Degraded[grp.level]
	if b.perHour > 0 {
		return scale * b.perHour * float64(grp.running)
	}
	sum := 0.0
	if grp.original > 0 {
		sum = b.batch * float64(grp.original) * b.life.Rate(l.now+x)
	}
	if grp.running > grp.original {
		for i := range l.young {
			if y := &l.young[i]; y.group == g {
				sum += y.batch * b.life.Rate(l.now+x-y.install)
			}
		}
	}
	return scale * sum
}

// pickDrive chooses the drive of a group that fails x hours from now, in
// proportion to the hazards then: an index of the young, or none for one of the
// originals.
func (b *Simulator) pickDrive(l *line, g int, x float64) int {
	grp := &l.groups[g]
	if grp.running == grp.original {
		return none
	}
	old := 0.0
	if grp.original > 0 {
		old = b.batch * float64(grp.original) * b.life.Rate(l.now+x)
	}
	total := old
	for i := range l.young {
		if y := &l.young[i]; y.group == g {
			total += y.batch * b.life.Rate(l.now+x-y.install)
		}
	}
	left := b.rnd.Float64()*total - old
	if left < 0 {
		return none
	}
	last := none
	for i := range l.young {
		if y := &l.young[i]; y.group == g {
			last = i
			if left -= y.batch * b.life.Rate(l.now+x-y.install); left < 0 {
				break
			}
		}
	}
	return last
}

// nextFailure draws the next failure in the whole groups, if it comes within
// limit hours: after how long, in which group, and which of the young (none for
// an original). group is none where it does not come.
func (b *Simulator) nextFailure(l *line, limit float64) (dt float64, group, young int) {
	dt, group = limit, none
	sys := b.sys
	if b.perHour > 0 {
		if l.calm == 0 {
			return dt, none, none
		}
		x := b.rnd.Exp() / (b.rate * b.perHour * float64(l.calm))
		if x >= limit {
			return dt, none, none
		}
		return x, b.pickCalm(l), none
	}
	if l.calm > 0 {
		scale := b.rate * b.batch * float64(l.calm)
		x := b.life.Age(b.life.Cumulative(l.now)+b.rnd.Exp()/scale) - l.now
		if x < limit {
			dt, group = max(0, x), b.pickCalm(l)
		}
	}
	young = none
	for i := range l.young {
		y := &l.young[i]
		if l.groups[y.group].level > 0 || l.sets[y.group/sys.GroupsPerSet].down {
			continue
		}
		age := l.now - y.install
		e := b.rnd.Exp() / (b.rate * y.batch)
		if e >= b.life.Over(age, dt) {
			continue
		}
		x := b.life.Age(b.life.Cumulative(age)+e) - age
		dt, group, young = min(dt, max(0, x)), y.group, i
	}
	return dt, group, young
}

// pickCalm chooses a whole group by its originals.
func (b *Simulator) pickCalm(l *line) int {
	if len(l.groups) == 1 {
		return 0
	}
	i := b.rnd.Intn(l.calm)
	for g := range l.groups {
		grp := &l.groups[g]
		if grp.level > 0 || l.sets[g/b.sys.GroupsPerSet].down {
			continue
		}
		if i -= grp.original; i < 0 {
			return g
		}
	}
	panic("branch: fewer original drives in whole groups than counted")
}
