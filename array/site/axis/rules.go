package axis

import (
	"gonum.org/v1/gonum/stat/distuv"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/array/evidence"
)

// rule is the range that is taken for an input for which the site file gives
// none.
type rule struct {
	key       string                                // the last of the path; within care and hazards also its table's
	low, high float64                               // times the file's own value
	ends      func(own float64) (low, high float64) // in place of low and high; nil: those hold
	by        *distuv.Gamma                         // of what the file has, times which its value is; nil: not known
	known     *rates                                // in place of all these: the file has no such number, but a record to make it of
	words     string                                // how it was taken, and on what ground
	law       distuv.Quantiler                      // of the value in the unit computed in, where it is known
	// The standard error of the logarithm of what was fitted, and its correlation with
	// that of the rule before.
	relative, correlation float64
	centre                float64 // of its law as times what the file has; 0: 1
	rate                  bool    // a failure rate, which a hazard multiplier multiplies
	doubtful              bool    // see [Input]
	updated               bool    // what the site's log made of a failure rate
}

// Hardly anybody publishes how uncertain a site's figures are: but for fits and records,
// which bring their own errors, and for datasheets, each of these is a guess, and the
// words say so. Those of failure rates stand in package
// evidence, which begins from them too.

// driveRules are for the models that some choice uses.
var driveRules = []rule{
	{key: "life.afr", low: evidence.Usual("afr").Low, high: evidence.Usual("afr").High, words: "half to twice, a guess", rate: true, doubtful: true},
	{key: "life.mtbf", low: evidence.Usual("mtbf").Low, high: evidence.Usual("mtbf").High, words: "a fifteenth of it to all of it: datasheets' 0.88 % a year were seen as 2 to 4 %, up to 13 % (Schroeder and Gibson, FAST 2007)", rate: true, doubtful: true},
	{key: "life.shape", low: 0.8, high: 1.25, words: "0.8 to 1.25 times, a guess"},
	{key: "life.scale", low: evidence.Usual("scale").Low, high: evidence.Usual("scale").High, words: "half to twice, a guess", rate: true, doubtful: true},
	{key: "life.afr_by_year", low: evidence.Usual("afr_by_year").Low, high: evidence.Usual("afr_by_year").High, words: "half to twice, a guess", rate: true, doubtful: true},
	{key: "batch_variance", ends: func(own float64) (float64, float64) { return 0, max(1, 2*own) }, words: "none to the larger of 1 and twice, a guess"},
	{key: "read_error", low: 1. / 3, high: 3, words: "a third to three times, a guess"},
	{key: "latent_defects.mean", low: 0.5, high: 2, words: "half to twice, a guess"},
}

// careRules are for the site's care and for what choices override of it. uses says
// whether a choice's risk can depend on it at all.
var careRules = []struct {
	rule
	uses func(array.Choice) bool
}{
	{rule{key: "notice", low: 0.5, high: 2, words: "half to twice, a guess"}, waits},
	{rule{key: "response", low: 0.5, high: 2, words: "half to twice, a guess", doubtful: true}, waits},
	{rule{key: "restock", low: 0.5, high: 2, words: "half to twice, a guess"}, func(c array.Choice) bool { return waits(c) && c.HotSpares > 0 }},
	{rule{key: "rebuild_share", low: 0.5, high: 2, words: "half to twice, at most 1, a guess"}, waits},
	{rule{key: "scrub", low: 0.5, high: 2, words: "half to twice, a guess"}, func(c array.Choice) bool { return c.Care.Scrub != nil }},
	{rule{key: "restore", low: 0.5, high: 2, words: "half to twice, a guess", doubtful: true}, func(c array.Choice) bool { return !waits(c) }},
}

// waits reports whether notice, response and rebuild count, and not restore in their
// place.
func waits(c array.Choice) bool { return c.Care.Restore == nil }

// hazardRules are for what reaches beyond the single drive.
var hazardRules = []rule{
	{key: "common_cause.per_year", low: 0.5, high: 2, words: "half to twice, a guess", doubtful: true},
	{key: "common_cause.each_drive", low: 0.5, high: 2, words: "half to twice, at most 1, a guess", doubtful: true},
	{key: "degraded_multiplier", ends: func(own float64) (float64, float64) { return 1, 2 * own }, words: "1 to twice, a guess"},
}

// normal95 is how many standard errors either way hold 95 % of a normal law.
const normal95 = 1.96

// lifeRules returns the ranges of what a life law itself says it leaves open, which
// are in place of guesses at any of it; none where it says nothing of the kind.
func lifeRules(model array.Drive) (own []rule) {
	of := model.Life.About()
	if of.Rate != nil {
		own = append(own, recorded(*of.Rate, model.Log != nil))
	}
	if of.Multiplier != nil {
		return append(own, updated(*of.Multiplier))
	}
	for i, p := range of.Errors {
		r := fitted("life."+p.Key, p.Error)
		r.refitted(model)
		if i > 0 {
			r.correlation = of.Correlation
		}
		own = append(own, r)
	}
	return own
}

// fitted returns the range of a figure whose logarithm has a standard error.
func fitted(key string, relative float64) rule {
	return rule{key: key, low: elementary.Exp(-normal95 * relative), high: elementary.Exp(normal95 * relative), words: "1.96 standard errors of the fit either way", relative: relative, doubtful: true}
}

// refitted makes the range of a parameter of a fit that of what a log made of the fit.
func (r *rule) refitted(model array.Drive) {
	now, ok := model.Life.(array.FittedWeibull)
	if !ok || model.Log == nil {
		return
	}
	stated, ok := model.Log.Stated.(array.FittedWeibull)
	if !ok {
		return
	}
	r.centre = now.Scale / stated.Scale
	if r.key == "life.shape" {
		r.centre = now.Shape / stated.Shape
	}
	r.low, r.high, r.updated = r.low*r.centre, r.high*r.centre, true
	r.words = "1.96 standard errors either way of the fit as the site's log updated it"
}

// recorded returns the range of a record's failure rate: the 95 % interval of its
// law. At either end the rate is known, and not drawn from the record's law any more.
func recorded(r array.GammaRate, byLog bool) rule {
	law := distuv.Gamma{Alpha: r.Shape, Beta: r.Years}
	words := "the 95 % interval of the record's rate"
	if byLog {
		words = "the 95 % interval of the rate as the site's log updated it"
	}
	return rule{key: "life.afr", known: &rates{law.Quantile(0.025), law.Mean(), law.Quantile(0.975)}, words: words, law: law, doubtful: true, updated: byLog}
}

// updated returns the range of what multiplies a law that ages and that the site's log
// updated: the 95 % interval of its law. At either end it is known, and not drawn from the
// law of what the log left any more.
func updated(by array.Gamma) rule {
	law := distuv.Gamma{Alpha: by.Shape, Beta: by.Rate}
	return rule{key: "hazard_multiplier", low: law.Quantile(0.025), high: law.Quantile(0.975), words: "the 95 % interval of what the site's log leaves of it, times the law as stated", by: &law, doubtful: true, updated: true}
}

// rates are failure rates per drive-year.
type rates struct{ low, mean, high float64 }
