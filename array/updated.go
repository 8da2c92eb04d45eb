package array

// Gamma is a Gamma law, with the density proportional to x^(Shape−1)·exp(−Rate·x).
type Gamma struct {
	Shape float64 // above 0
	Rate  float64 // above 0
}

// Mean returns Shape/Rate.
func (g Gamma) Mean() float64 { return g.Shape / g.Rate }

// Updated returns the law after so many events of a Poisson process of which so many
// were expected at a multiplier of 1: Gamma(Shape + events, Rate + expected). See
// A. Gelman et al., Bayesian Data Analysis, 3rd edition, 2013, section 2.6.
func (g Gamma) Updated(events, expected float64) Gamma {
	return Gamma{g.Shape + events, g.Rate + expected}
}

// UpdatedLife is a law of life that a site's own failures have updated: the hazard of Of
// at every age, times a multiplier that is uncertain.
type UpdatedLife struct {
	Of         Life // as it was before; no [FieldRecord] and no [FittedWeibull], whose updates are such laws too
	Multiplier Gamma
}

// SiteFile returns the law as it was before, as a site file takes it beside the log.
func (l UpdatedLife) SiteFile() string { return l.Of.SiteFile() }

// About returns what is said of a law that was updated.
func (l UpdatedLife) About() AboutLife {
	of := l.Of.About()
	a := AboutLife{
		Caution:  "Failure rates that a site's own log updated carry the uncertainty of that log, and of what was taken for the rate before it, into the loss chance; they do not tell whether drives bought later will be like those of the log.",
		Beyond:   of.Beyond,
		Ages:     of.Ages,
		Recorded: true,
	}
	if a.Beyond == "" {
		a.Beyond = "how uncertain the rate is"
	}
	if rate, ok := l.Of.(ConstantRate); ok {
		a.Rate = &GammaRate{Shape: l.Multiplier.Shape, Years: l.Multiplier.Rate / rate.AFR}
	} else {
		a.Multiplier = &l.Multiplier
	}
	return a
}

// Log is what happened to drives of one model at a site, and what it makes of their law.
type Log struct {
	Failures  float64
	DriveDays float64 // watched
	// Expected is the failures expected of these drives by Stated times Multiplier.
	Expected      float64
	Before, After Gamma   // what multiplies that, without the log and with it; of a fit with errors at the ages of the log
	Ground        string  // what Before rests on, in words: "the site file's range of it"
	Stated        Life    // the law before the log
	Multiplier    float64 // the drive's HazardMultiplier as entered
	// Fleets are what of the log tells of each drive by itself; the rest gives sums.
	Fleets []Fleet
}
