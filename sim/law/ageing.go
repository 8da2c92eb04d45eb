package law

import "math"

// Ageing is a Weibull life whose hazards are asked for over and over, of one drive at
// ages that lie near each other: a [Near] for each drive remembers an age, from where the
// binomial series leads to those around, without a logarithm. It is good to 1e-10 of each
// hazard. Make it with [NewAgeing].
type Ageing struct {
	life  Weibull
	reach float64              // share of an age by which others may be off
	terms [seriesTerms]float64 // Shape over k, from k = 1 on
}

// With so many terms a series is good to 1e-10 as long as ages differ by this share at
// most, and by less where the shape is large. Within the share seriesClose of that, as
// windows of hours are at ages of years, closeTerms are as good.
const (
	seriesTerms = 12
	seriesReach = 1.0 / 6
	closeTerms  = 6
	seriesClose = 1.0 / 32
)

// Near is an age that a drive was looked at, with the cumulative hazard there. The zero
// Near knows of none.
type Near struct{ age, inverse, power float64 }

// NewAgeing returns the hazards of a life.
func NewAgeing(life Weibull) Ageing {
	a := Ageing{life: life, reach: seriesReach / max(1, life.Shape)}
	term := 1.0
	for i := range a.terms {
		term *= (life.Shape - float64(i)) / float64(i+1)
		a.terms[i] = term
	}
	return a
}

// growth returns (1 + e)^Shape − 1 for |e| up to reach.
func (a *Ageing) growth(e float64) float64 {
	if math.Abs(e) < a.reach*seriesClose {
		return a.series(e, closeTerms)
	}
	return a.series(e, seriesTerms)
}

// series returns that of so many terms, which is even.
func (a *Ageing) series(e float64, terms int) float64 {
	sum, square := 0.0, e*e
	for i := terms - 2; i >= 0; i -= 2 {
		sum = sum*square + (a.terms[i] + e*a.terms[i+1])
	}
	return e * sum
}

// Remember has a drive remember an age of which the cumulative hazard is known.
func (a *Ageing) Remember(n *Near, age, cumulative float64) {
	if x := age - a.life.Min; x > 0 {
		*n = Near{x, 1 / x, cumulative}
	}
}

// power returns (x/Scale)^Shape and 1/x. From an age that is close the series loses no
// digits, and what is near moves on with the drive.
func (a *Ageing) power(n *Near, x float64) (power, inverse float64) {
	off := x - n.age
	if off == 0 {
		return n.power, n.inverse
	}
	e := off * n.inverse
	switch apart := math.Abs(off); {
	case apart < a.reach*seriesClose*n.age:
		*n = Near{x, 1 / x, n.power * (1 + a.series(e, closeTerms))}
	case apart < a.reach*n.age:
		return n.power * (1 + a.series(e, seriesTerms)), 1 / x
	default:
		*n = Near{x, 1 / x, a.life.power(x)}
	}
	return n.power, n.inverse
}

// Rate returns the hazard per hour at an age.
func (a *Ageing) Rate(n *Near, age float64) float64 {
	x := age - a.life.Min
	if x <= 0 {
		return a.life.Rate(age)
	}
	power, inverse := a.power(n, x)
	return a.life.Shape * power * inverse
}

// A Stretch is the hazard of some drives over some hours.
type Stretch struct {
	Over        float64 // cumulative
	First, Last float64 // per hour, at their beginning and their end
}

// Even reports whether the hazard was the same, but for rounding, in all of the hours,
// which were so many.
func (s *Stretch) Even(hours float64) bool {
	return s.First == s.Last && math.Abs(s.Over-s.First*hours) <= 1e-12*s.Over
}

// Add adds the hazard of other drives, times a factor.
func (s *Stretch) Add(factor float64, of Stretch) {
	s.Over += factor * of.Over
	s.First += factor * of.First
	s.Last += factor * of.Last
}

// Through returns the hazard of a drive of an age in the next d hours.
func (a *Ageing) Through(n *Near, age, d float64) Stretch {
	x := age - a.life.Min
	if x <= 0 {
		return Stretch{a.life.Over(age, d), a.life.Rate(age), a.life.Rate(age + d)}
	}
	power, inverse := a.power(n, x)
	e, over := d*inverse, 0.0
	if e < a.reach {
		over = power * a.growth(e)
	} else {
		over = power * math.Expm1(a.life.Shape*math.Log1p(e))
	}
	return Stretch{over, a.life.Shape * power * inverse, a.life.Shape * (power + over) / (x + d)}
}
