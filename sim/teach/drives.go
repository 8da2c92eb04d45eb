package teach

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/law"
	"arrayodds/sim/sweep"
)

// weekly is a scrub, common practice without a source, where the site has none.
var weekly array.Time = array.Fixed{Hours: 168}

// ofScrub asks for a site that scrubs no more, or where nobody does for one that does
// once a week. Where an unreadable sector ends no array, what it moves is the chance of
// losing anything at all: a stripe.
func ofScrub(own sweep.Point, z array.Sizing) question {
	c := own.Choice
	q := question{Question: Question{Title: "No scrubbing any more", Any: !c.Care.Stop}, before: 1, after: 3}
	switch {
	case !(c.Drive.LatentMean > 0):
		q.after, q.not = -1, fmt.Sprintf("Scrubbing is not asked about: %s has no latent_defects, so that a scrub has nothing to find.", c.Drive.Label)
		return q
	case !z.Shape.Rebuilds():
		q.after, q.not = -1, "Scrubbing is not asked about: nothing is rebuilt in this layout, so that no rebuild comes upon a latent defect."
		return q
	}
	add := func(text string, scrub array.Time) {
		p := own
		p.Choice.Care.Scrub = scrub
		q.settings = append(q.settings, setting{text: text, point: p})
	}
	what := "footage"
	if q.Any {
		what = "any footage, be it one stripe"
	}
	if c.Care.Scrub == nil {
		q.Title, q.before, q.after = "Scrubbing once a week", 0, 2
		q.Ask = fmt.Sprintf("Nobody scrubs here: a sector that goes bad stays unnoticed until a rebuild wants to read it. Now every drive is read once a week. What becomes of the chance of losing %s?", what)
		add("never", nil)
		add("once in four weeks", weekly.Times(4))
		add("once a week", weekly)
	} else {
		q.Ask = fmt.Sprintf("Nobody scrubs any more: a sector that goes bad stays unnoticed until a rebuild wants to read it. What becomes of the chance of losing %s?", what)
		add("4 times as often", c.Care.Scrub.Times(0.25))
		add("as it is", c.Care.Scrub)
		add("4 times as rarely", c.Care.Scrub.Times(4))
		add("never", nil)
	}
	q.more = func(p sweep.Point) Fact {
		n := present(p) * float64(z.Shape.DrivesInGroup-z.Shape.Tolerance)
		return Fact{Name: "Bad sectors on what one rebuild reads without redundancy, on average", Before: figure.Plain(to2(n))}
	}
	q.why = func(_, _ outage, _ estimate.Estimate) string {
		met := "one bad sector in it costs a stripe: some seconds of footage, not the array"
		if c.Care.Stop {
			met = "one bad sector in it ends the rebuild, and the array with it"
		}
		return fmt.Sprintf("A latent defect comes to a drive every %s or so, and harms nobody while there is redundancy to make the sector anew. The rebuild after which none is left reads every drive to its end, and %s. How many lie in wait then is how fast they come, times how long they stay; a scrub only shortens the second.",
			unit.FormatHours(c.Drive.LatentMean), met)
	}
	return q
}

// present returns how many latent defects a drive has on average, over the service life.
// They come at a constant rate; each stays for the time of a scrub at the most, or
// without one for what is left of the life, in the mean half of it.
func present(p sweep.Point) float64 {
	stay := p.Site.ServiceLife / 2
	if p.Choice.Care.Scrub != nil {
		if l, err := law.OfTime(p.Choice.Care.Scrub); err == nil {
			stay = min(stay, l.Mean())
		}
	}
	return stay / p.Choice.Drive.LatentMean
}

// to2 rounds to two digits.
func to2(x float64) float64 {
	if !(x > 0) {
		return x
	}
	scale := math.Pow(10, 1-math.Floor(math.Log10(x)))
	return math.Round(x*scale) / scale
}

// ofBatch asks for drives of one delivery that share their fate altogether, or where
// they do that already for such as share none.
func ofBatch(own sweep.Point, _ array.Sizing) question {
	v := own.Choice.Drive.BatchVariance
	q := question{Question: Question{Title: "One bad batch",
		Ask: "All drives are of one delivery, and deliveries differ more: the failure rate of a whole batch varies by as much as its mean (batch_variance 1), though on average it is the same. " + whatBecomes}}
	values := []float64{0, 0.2, 0.5, 1, 2}
	if v >= 1 {
		q.Title = "Drives of several batches"
		q.Ask = "The drives come from so many deliveries that they share no fate: each fails by itself (batch_variance 0), as often on average. " + whatBecomes
	}
	q.before = -1
	add := func(x float64) {
		p := own
		p.Choice.Drive.BatchVariance = x
		text := fmt.Sprintf("batch_variance %s", figure.Plain(x))
		switch {
		case x == 0:
			text += ", each by itself"
		case x == v:
			text += ", as it is"
		}
		if x == v {
			q.before = len(q.settings)
		}
		if x == 1 && v < 1 || x == 0 && v >= 1 {
			q.after = len(q.settings)
		}
		q.settings = append(q.settings, setting{text: text, point: p})
	}
	for _, x := range values {
		if q.before < 0 && v < x {
			add(v)
		}
		add(x)
	}
	if q.before < 0 {
		add(v)
	}
	q.why = func(_, _ outage, _ estimate.Estimate) string {
		const same = "A drive by itself fails no more often than before; but a batch that is bad is bad in every bay."
		if v >= 1 {
			return "A drive by itself fails as often as before; but bad ones no longer stand side by side. " + pairsOfBatch(v, 0)
		}
		return same + " " + pairsOfBatch(v, 1)
	}
	return q
}

// pairsOfBatch says how much likelier two failures close together are than in drives
// that share no fate, by a factor 1 + v: the mean of the square of a frailty of mean 1.
func pairsOfBatch(before, after float64) string {
	return fmt.Sprintf("The chance of two failures close together goes with the square of the batch's rate, whose mean is 1 + batch_variance times that of drives that share none: %s in place of %s. The more failures a loss takes, the more that counts; where the loss takes one only, hardly.",
		figure.Plain(1+after), figure.Plain(1+before))
}
