// Package hazard has the hazard of a drive by its age, as a simulated life asks for it: by
// the life law alone, without what multiplies it.
package hazard

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// Life is the life law of the drives in one life, with what is asked for again and again.
// Make it with [New]. It must not be copied, or used by two goroutines at once.
type Life struct {
	law.Life
	Worn   float64     // cumulative hazard of a drive over the whole life
	Ageing *law.Ageing // the law again, where it is a Weibull law; else nil

	horizon float64
	years   []float64   // cumulative hazard of an original drive at the end of each; +Inf for the last
	fitted  law.Weibull // the law, where it is drawn for each life
	steps   *law.Steps  // the law again, where it goes by steps; else nil
	flat    float64     // its hazard per hour, where that is always the same; else 0

	clockAt, clock float64 // a time, and the cumulative hazard of an original drive by then
}

// New returns the hazards of drives of a life law over so many hours.
func New(life law.Life, horizon float64) *Life {
	l := &Life{Life: life, horizon: horizon}
	switch life := life.(type) {
	case law.Constant:
		l.flat = life.PerHour
	case law.Weibull:
		ageing := law.NewAgeing(life)
		l.Ageing = &ageing
	case law.Steps:
		l.steps = &life
	}
	l.prepare()
	return l
}

// prepare works out the cumulative hazards of this life that are the same all through it.
func (l *Life) prepare() {
	l.Worn = l.Cumulative(l.horizon)
	last := model.CurveLength(l.horizon) - 1
	l.years = l.years[:0]
	for year := range last {
		l.years = append(l.years, l.Cumulative(model.YearEnd(year)))
	}
	l.years = append(l.years, math.Inf(1))
}

// Refit puts another Weibull law in the place of one, for the next life.
func (l *Life) Refit(w law.Weibull) {
	l.fitted = w
	l.Life = &l.fitted // a pointer, so that it takes no memory
	*l.Ageing = law.NewAgeing(w)
	l.prepare()
}

// Law returns the law, to be kept beyond this life.
func (l *Life) Law() law.Life {
	if l.Life == &l.fitted {
		return l.fitted
	}
	return l.Life
}

// Through returns the hazard of a drive from an age on for x hours.
func (l *Life) Through(near *law.Near, age, x float64) law.Stretch {
	switch {
	case l.flat > 0:
		return law.Stretch{Over: l.flat * x, First: l.flat, Last: l.flat}
	case l.Ageing != nil:
		return l.Ageing.Through(near, age, x)
	case l.steps != nil:
		return l.steps.Through(age, x)
	}
	return law.Stretch{Over: l.Over(age, x), First: l.Rate(age), Last: l.Rate(age + x)}
}

// At returns the hazard per hour of a drive of an age.
func (l *Life) At(near *law.Near, age float64) float64 {
	if l.Ageing != nil {
		return l.Ageing.Rate(near, age)
	}
	return l.Rate(age)
}

// By returns the cumulative hazard of an original drive by a time, which the main line
// mostly asks for twice.
func (l *Life) By(t float64) float64 {
	if t == l.clockAt {
		return l.clock
	}
	return l.Cumulative(t)
}

// Keep keeps the cumulative hazard of an original drive by a time, for [Life.By] and for
// what is asked near that age.
func (l *Life) Keep(near *law.Near, t, cumulative float64) {
	l.clockAt, l.clock = t, cumulative
	if l.Ageing != nil {
		l.Ageing.Remember(near, t, cumulative)
	}
}
