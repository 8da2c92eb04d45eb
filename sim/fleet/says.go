package fleet

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Headline says how the fleet stands, in a sentence.
func (r *Result) Headline() string {
	switch {
	case r.Lost == 0 && r.Degraded == 0:
		return "Every drive runs. Nobody has to go anywhere tonight."
	case r.Lost == 0:
		return fmt.Sprintf("%s drives down. None is lost.", have(r.Degraded))
	case r.allLost():
		return fmt.Sprintf("%s lost: more drives are down than %s.", are(r.Lost), stand(r.Lost))
	case r.Degraded == 0:
		return fmt.Sprintf("%s lost: more drives are down than %s. In the others every drive runs.", are(r.Lost), stand(r.Lost))
	}
	return fmt.Sprintf("%s lost: more drives are down than %s. %s more %s drives down.", are(r.Lost), stand(r.Lost), figure.Whole(float64(r.Degraded)), verb(r.Degraded))
}

// allLost reports whether there is no array beside those that are lost.
func (r *Result) allLost() bool { return r.Lost == len(r.Arrays) }

func have(n int) string { return figure.Count(n, "array has", "arrays have") }

func are(n int) string { return figure.Count(n, "array is", "arrays are") }

func stand(n int) string {
	if n == 1 {
		return "it stands"
	}
	return "they stand"
}

func verb(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// Count says how large the fleet is.
func (r *Result) Count() string {
	return fmt.Sprintf("%s with %s, of %s", figure.Count(len(r.Arrays), "array", "arrays"), figure.Count(r.Year.Drives, "drive", "drives"), figure.Count(r.Sites, "site file", "site files"))
}

// Points says what is to be expected, a sentence or two each.
func (r *Result) Points() (all []string) {
	say := func(format string, a ...any) { all = append(all, fmt.Sprintf(format, a...)) }
	of := ""
	if r.Lost > 0 {
		of = ", beside those that are lost,"
	}
	switch {
	case r.allLost(): // none is left to lose
	case r.Losses.High < fewLosses: // a number of arrays would say little
		say("Within 30 days: %s that one of the arrays%s loses footage%s.", odds(r.Losses), of, r.ofDegraded(odds))
	default:
		say("Within 30 days %s arrays%s are to be expected to lose footage%s.", number(r.Losses), of, r.ofDegraded(number))
	}
	say("Within a year %s drives are to be expected to fail, and in 95\u00a0%% of the cases at most %s.", number(r.Year.Failures), most(r.Year.Most))
	spares := r.Year.Spares()
	if r.Year.Owed > 0 {
		say("Drives to have for that year: %s, of which %s wanted now, for drives that are down and hot spares that are out.", figure.Whole(spares.Value), figure.Plural(figure.Whole(float64(r.Year.Owed)), "is", "are"))
	} else {
		say("Drives to have for that year: %s. None is wanted now.", figure.Whole(spares.Value))
	}
	return all
}

// fewLosses is the number of arrays to be expected to lose footage below which it is as
// good as the chance that one of them does: that is less by half of the number's square at
// the most.
const fewLosses = 0.02

// odds writes a chance with its interval.
func odds(e estimate.Estimate) string {
	if e.Value == 0 || e.Low == e.High {
		return figure.Odds(e)
	}
	return fmt.Sprintf("%s (95\u00a0%%: %s)", figure.Odds(e), figure.OddsInterval(e))
}

// ofDegraded says how much of what is to be expected is of arrays with drives down; empty
// where none is.
func (r *Result) ofDegraded(write func(estimate.Estimate) string) string {
	if r.Degraded == 0 {
		return ""
	}
	return fmt.Sprintf(", %s among those with drives down now", write(r.OfDegraded))
}

// First says in a sentence each where to go first, and of the arrays that are lost which
// those are.
func (r *Result) First() (all []string) {
	const few = 3
	var lost, alone []string
	for i := range r.Arrays[:r.Lost] {
		if s := &r.Arrays[i]; s.Alone {
			alone = append(alone, label.OneLine(s.Name))
		} else {
			lost = append(lost, label.OneLine(s.Name))
		}
	}
	if len(lost) > 0 {
		all = append(all, fmt.Sprintf("Lost: %s. Call, and have the recorder switched off and every drive left in its bay.", figure.Some(lost)))
	}
	if len(alone) > 0 {
		all = append(all, fmt.Sprintf("Lost with what was on a drive that stood alone: %s. The drives beside it record on; put a new one in by day.", figure.Some(alone)))
	}
	for i := range r.Arrays[r.Lost:min(len(r.Arrays), r.Lost+few)] {
		s := &r.Arrays[r.Lost+i]
		if s.Best == nil {
			break
		}
		place := "First"
		if i > 0 {
			place = "Then"
		}
		all = append(all, fmt.Sprintf("%s %s: %s, from %s to %s.", place, label.OneLine(s.Name), lowerFirst(label.OneLine(s.Advice)), figure.Odds(s.Loss), figure.Odds(s.Best.Loss)))
	}
	return all
}

// lowerFirst returns a sentence to stand behind a colon.
func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// number writes an estimate with its interval.
func number(e estimate.Estimate) string {
	if e.Value == 0 && e.High > 0 {
		return fmt.Sprintf("none (not seen: at most %s)", figure.Exact(e.High))
	}
	if e.Low == e.High {
		return figure.Exact(e.Value)
	}
	return fmt.Sprintf("%s (95\u00a0%%: %s)", figure.Number(e), figure.Interval(e))
}

// most writes the quantile of a number of drives with its interval.
func most(e estimate.Estimate) string {
	if e.Low == e.High {
		return figure.Whole(e.Value)
	}
	return fmt.Sprintf("%s (%s to %s)", figure.Whole(e.Value), figure.Whole(e.Low), figure.Whole(e.High))
}

// Stands says how an array stands in a few words.
func (s *Standing) Stands() string {
	down := len(s.AreDown)
	switch {
	case s.Lost() && s.Tolerance == 0:
		return fmt.Sprintf("lost: %d of %d down, and it stands none", down, s.Drives)
	case s.Lost():
		return fmt.Sprintf("lost: %d of %d down", down, s.Drives)
	case down == 0:
		return "every drive runs"
	case s.Down == s.Tolerance:
		return fmt.Sprintf("%d of %d down, no redundancy left", down, s.Drives)
	}
	return fmt.Sprintf("%d of %d down, stands %d more", down, s.Drives, s.Tolerance-s.Down)
}

// Left returns the loss chance with the thing done that helps most; that left alone where
// nothing does.
func (s *Standing) Left() estimate.Estimate {
	if s.Best == nil {
		return s.Loss
	}
	return s.Best.Loss
}

// Listed returns how many arrays from the first on a list is to have that shows where to
// go: those that are lost or have drives down, at the most so many; where there are none,
// the few in which a loss is likeliest.
func (r *Result) Listed(most int) int {
	const few = 5
	n := r.Lost + r.Degraded
	if n == 0 {
		n = few
	}
	return min(n, most, len(r.Arrays))
}

// MoreModels returns how many models come behind so many of Models: those that are told of by
// themselves, and those that are summed up in the last.
func (r *Result) MoreModels(shown int) (alone, summed int) {
	for i := min(shown, len(r.Models)); i < len(r.Models); i++ {
		if n := r.Models[i].Others; n > 0 {
			summed += n
		} else {
			alone++
		}
	}
	return alone, summed
}

// Order says what the order is by.
const Order = "Lost arrays first. Then by what a visit tonight takes off: the chance of losing footage within 30 days, less that chance with the one thing done that helps most. Every array counts as one, however much footage it holds: what that is worth is for you to weigh."

// TiedNote explains the mark of arrays that are not told apart.
const TiedNote = "≈ : by the intervals it may as well stand before the one above it."

// Footage returns the footage that a loss destroys, in words; empty where it is not known.
func (s *Standing) Footage() string {
	if math.IsNaN(s.CameraDays) {
		return ""
	}
	return figure.Plural(figure.Whole(math.Round(s.CameraDays)), "camera-day", "camera-days")
}

// SiteName returns the name of the site, in one line.
func (s *Standing) SiteName() string { return label.OneLine(s.Site) }

// ModelName returns what a model is called: its label, or how many are summed up.
func (m *Model) ModelName() string {
	if m.Others > 0 {
		return figure.Count(m.Others, "other model", "other models")
	}
	if l := label.OneLine(m.Label); l != "" {
		return l
	}
	return "without a label"
}

// Cautions are what a reader should know before acting on the figures.
func Cautions() []string {
	return []string{
		"A simulated chance is an estimate under what the files say. Of arrays that seem alike the order says little: see the intervals.",
		"What the drives of one model have in common, and no site file says, is in no figure: a bad delivery over several arrays, a fault of firmware, a hot summer.",
		"The drives of one record of failures, of one fit and of one log live by one draw of their law in each simulated year, so the 95 % point knows the doubt of that; a rate that is stated, and that no log of the site updates, is taken for certain.",
		"The 95 % points of the models come to more than that of all, as not all of them have a bad year at once.",
		"Drives to have is for all arrays from one shelf, without any that come back within the year. Where each site has its own shelf, more are needed.",
		"RAID is no backup. What a lost array still holds is a matter for a specialist; switch it off and touch nothing, unless each drive stands alone: then let the others record on.",
	}
}
