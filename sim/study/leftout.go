package study

import (
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sweep"
)

// LeftOut is a hazard that the site file leaves out and that the trade knows, tried at a
// stated value.
type LeftOut struct {
	Key     string // "common_cause"
	Path    string // as one can type it, with the value in Setting
	Setting string
	Says    string // "a common cause that ..., a guess"
	// Chance is the loss chance of each choice with it, by places in Outcomes, and
	// Factor how many times that as entered it is. Not known of choices that were not
	// simulated.
	Chance, Factor []estimate.Estimate
	Matters        bool // it moves a choice tenfold, or changes the order of two
}

// whatIf is a hazard to be tried.
type whatIf struct {
	LeftOut
	settings []axis.Setting
}

// The values at which left-out hazards are tried. Latent defects: one in 9 259 h of a
// drive, J. G. Elerath, M. Pecht, "Enhanced Reliability Modeling of RAID Storage Systems",
// DSN 2007. The others are guesses, and say so: nobody publishes them.
var hazardsTried = []struct {
	key, path, setting, says string
	missing                  func(array.Site, Outcome) bool // of a choice
}{
	{"common_cause", "hazards.common_cause", "{ per_year = 0.001, each_drive = 0.5 }", "an event once in 1 000 years that kills each drive with a chance of one in two (a guess)",
		func(s array.Site, _ Outcome) bool { return s.Hazards.CommonPerYear == 0 }},
	{"batch", "drives.*.batch_variance", "1", "drives of one delivery that share their fate, batch_variance 1 (a guess)",
		func(_ array.Site, o Outcome) bool { return o.Choice.Drive.BatchVariance == 0 }},
	{"latent_defects", "drives.*.latent_defects.mean", "9259 h", "sectors that go bad unnoticed, one in 9 259 h of a drive (Elerath and Pecht, DSN 2007)",
		func(_ array.Site, o Outcome) bool { return o.Choice.Drive.LatentMean == 0 && o.Redundant() }},
	{"stop", "choices.*.care.unreadable", "stop", "a rebuild that ends at the first sector that it cannot read, and loses the group",
		func(_ array.Site, o Outcome) bool {
			return !o.Choice.Care.Stop && o.Redundant() && (o.Choice.Drive.LatentMean > 0 || o.Choice.Drive.ReadErrorBits > 0)
		}},
	{"degraded_multiplier", "hazards.degraded_multiplier", "2", "drives that fail twice as often while their group is degraded (a guess)",
		func(s array.Site, o Outcome) bool {
			return s.Hazards.DegradedMultiplier <= 1 && o.Redundant()
		}},
}

// whatIfsTried returns the hazards that the file leaves out.
func (d *doubter) whatIfsTried() (all []whatIf) {
	s := d.into.Site
	for _, h := range hazardsTried {
		typed := []string{h.path + "=" + h.setting}
		if key, ofDrive := strings.CutPrefix(h.path, "drives.*."); ofDrive {
			typed = nil // of the drives alone that are without it
			for _, o := range d.into.Outcomes {
				one := "drives." + unit.Quote(o.Choice.Drive.Label) + "." + key + "=" + h.setting
				if h.missing(s, o) && !slices.Contains(typed, one) {
					typed = append(typed, one)
				}
			}
		} else if !slices.ContainsFunc(d.into.Outcomes, func(o Outcome) bool { return h.missing(s, o) }) {
			continue
		}
		settings, ok := d.typed(typed)
		if !ok || len(settings) == 0 {
			continue
		}
		w := whatIf{LeftOut{Key: h.key, Path: h.path, Setting: h.setting, Says: h.says}, settings}
		w.Chance, w.Factor = none(len(d.Choices)), none(len(d.Choices))
		all = append(all, w)
	}
	return all
}

// typed returns the settings that are typed so; false where the file has no place for
// them.
func (d *doubter) typed(typed []string) (settings []axis.Setting, ok bool) {
	for _, t := range typed {
		a, err := d.Source.Axis(t, 2)
		if err != nil {
			return nil, false
		}
		settings = append(settings, a.Set(a.Values[0]))
	}
	_, err := d.Source.With(settings...)
	return settings, err == nil
}

// tried returns the loss chance of a choice with a hazard, and how many times that as
// entered it is. likely and at are the points of the series without it and with it.
func (d *doubter) tried(i int, f *site.File, series *sweep.Series, likely, at int) (chance, factor estimate.Estimate) {
	if _, unfit := f.Unfit[d.Choices[i]]; unfit {
		return estimate.None(), estimate.None()
	}
	entered := d.into.Outcomes[i].Result.LossChance
	factor = series.Ratio(at, series, likely).Estimate
	if !factor.Known() { // nothing is lost as entered
		return series.Result(at).LossChance, estimate.None()
	}
	reach := math.Hypot(factor.RelativeError, entered.RelativeError)
	p := entered.Times(factor.Value).AtMostOne().Value
	return estimate.FromInterval(p, math.Max(0, p*(1-estimate.Z95*reach)), math.Min(1, p*(1+estimate.Z95*reach))), factor
}

const (
	tenfold = 10
	// orderMargin is how much safer one choice has to be than another for the order to
	// count as theirs.
	orderMargin = 1.1
)

// matters reports whether a hazard moves some choice tenfold, or turns the order of two.
func (w *whatIf) matters(outcomes []Outcome) bool {
	for i := range outcomes {
		if w.Factor[i].Value >= tenfold || w.Factor[i].Value <= 1./tenfold || !w.Factor[i].Known() && w.Chance[i].Value > 0 {
			return true
		}
		for j := range outcomes {
			before := outcomes[i].Result.LossChance.Value * orderMargin
			after := w.Chance[j].Value * orderMargin
			if before < outcomes[j].Result.LossChance.Value && after < w.Chance[i].Value {
				return true
			}
		}
	}
	return false
}
