package law

// Crowd is the cumulative hazard of many drives of an [Ageing] life as one polynomial in
// the hours since a time. The zero Crowd has no drives.
type Crowd struct {
	Drives int
	terms  [seriesTerms]float64 // of the first power and those that follow
}

// Fits reports whether a drive of an age may join a crowd that is asked for no more than
// so many hours before and after.
func (a *Ageing) Fits(age, hours float64) bool { return hours < a.reach*(age-a.life.Min) }

// Join adds a drive that has an age at the crowd's time, its hazard multiplied by factor.
func (a *Ageing) Join(c *Crowd, n *Near, age, factor float64) {
	c.Drives++
	a.add(c, n, age, factor)
}

// Leave takes a drive out that has joined. It reports whether what is left still has its
// digits: where it is little, the crowd is to be gathered again.
func (a *Ageing) Leave(c *Crowd, n *Near, age, factor float64) bool {
	before := c.terms[0]
	c.Drives--
	a.add(c, n, age, -factor)
	return c.Drives > 0 && c.terms[0] > 0.1*before
}

func (a *Ageing) add(c *Crowd, n *Near, age, factor float64) {
	x := age - a.life.Min
	power, each := a.power(n, x)
	scale := factor * power
	for i, t := range a.terms {
		scale *= each
		c.terms[i] += scale * t
	}
}

// Through returns the hazard from u hours after the crowd's time on, which may be below
// 0, for x hours.
func (c *Crowd) Through(u, x float64) (s Stretch) {
	v := u + x
	ofU, ofV := 1.0, 1.0 // u^i, v^i
	mixed := 1.0         // (v^(i+1) − u^(i+1)) ÷ (v − u), without the difference
	for i, t := range c.terms {
		rate := float64(i+1) * t
		s.First += rate * ofU
		s.Last += rate * ofV
		s.Over += t * mixed
		ofU *= u
		ofV *= v
		mixed = mixed*v + ofU
	}
	s.Over *= x
	return s
}
