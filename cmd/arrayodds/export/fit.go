package export

import (
	"io"
	"math"

	"arrayodds/array"
	"arrayodds/array/record"
	"arrayodds/sim/estimate"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// FitJSON writes what was found of a record as one indented object. Rates are
// failures per drive-year, low and high the 95 % interval. What the form of the
// record cannot give, and an end of an interval that it does not bound, is null.
func FitJSON(w io.Writer, f study.Fit) error {
	out := fitDocument{Format: formatNumber, Groups: make([]fitGroup, 0, len(f.Results))}
	for _, r := range f.Results {
		out.Groups = append(out.Groups, fitGroupOf(r))
	}
	return indented(w, out)
}

type fitDocument struct {
	Format int        `json:"format"`
	Groups []fitGroup `json:"groups"`
}

type fitGroup struct {
	Label       string         `json:"label"`
	Drives      *int           `json:"drives"`
	Failures    number         `json:"failures"`
	DriveDays   number         `json:"drive_days"`
	AFR         jsonInterval   `json:"afr"`
	Exponential fitExponential `json:"exponential"`
	Weibull     *fitWeibull    `json:"weibull"`
	RatioP      *number        `json:"likelihood_ratio_p"`
	ByYear      []fitYear      `json:"afr_by_year"`
	Survival    []fitStep      `json:"survival"`
	Life        *string        `json:"life"`
	Warnings    []string       `json:"warnings"`
}

type jsonInterval struct {
	Value number  `json:"value"`
	Low   *number `json:"low"`
	High  *number `json:"high"`
}

type fitExponential struct {
	LogLikelihood number `json:"log_likelihood"`
}

type fitWeibull struct {
	Shape         jsonInterval `json:"shape"`
	Scale         jsonInterval `json:"scale_hours"`
	LogLikelihood number       `json:"log_likelihood"`
}

type fitYear struct {
	Year      int    `json:"year"`
	DriveDays number `json:"drive_days"`
	Failures  number `json:"failures"`
	jsonInterval
}

type fitStep struct {
	Hours number `json:"hours"`
	jsonInterval
}

func fitGroupOf(r fit.Result) fitGroup {
	g := fitGroup{
		Label:       r.Label,
		Drives:      r.Drives,
		Failures:    number(r.Failures),
		DriveDays:   number(r.DriveDays),
		AFR:         intervalOf(r.AFR),
		Exponential: fitExponential{number(r.ExponentialLogLikelihood)},
		RatioP:      (*number)(r.LikelihoodRatioP),
		Warnings:    append([]string{}, r.Warnings...),
	}
	if w := r.Weibull; w != nil {
		g.Weibull = &fitWeibull{boundedOf(w.Shape), boundedOf(w.Scale), number(w.LogLikelihood)}
	}
	for _, y := range r.ByYear {
		g.ByYear = append(g.ByYear, fitYear{y.Year, number(y.DriveDays), number(y.Failures), intervalOf(y.AFR)})
	}
	for _, s := range r.Survival {
		g.Survival = append(g.Survival, fitStep{number(s.Hours), intervalOf(estimate.Estimate{Value: s.Value, Low: s.Low, High: s.High})})
	}
	if r.Life != nil {
		life := r.Life
		if f, ok := life.(array.FittedWeibull); ok {
			// The errors of a fit stand in weibull above; the line is in the form
			// that any reader of a site file takes.
			life = array.WeibullLife{Shape: f.Shape, Scale: f.Scale}
		}
		text := record.Life(life)
		g.Life = &text
	}
	return g
}

func intervalOf(e estimate.Estimate) jsonInterval {
	low, high := number(e.Low), number(e.High)
	return jsonInterval{number(e.Value), &low, &high}
}

// boundedOf leaves out an end that is 0 or infinite: for a shape or a scale,
// neither is a bound.
func boundedOf(e estimate.Estimate) jsonInterval {
	i := intervalOf(e)
	if e.Low == 0 {
		i.Low = nil
	}
	if math.IsInf(e.High, 1) {
		i.High = nil
	}
	return i
}
