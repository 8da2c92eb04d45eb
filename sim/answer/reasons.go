package answer

import (
	"cmp"
	"fmt"
	"slices"

	"arrayodds/array/label"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// lossCauses says what each cause is and what touches it.
var lossCauses = [model.Causes]struct{ is, remedy string }{
	model.Waiting:      {"further failures while a failed drive waits", "a faster visit or a hot spare"},
	model.Rebuilding:   {"further failures during a rebuild", "a further parity, or a faster rebuild"},
	model.CommonCause:  {"events that strike many drives at once", "protection against surges, water and falls, and a second copy elsewhere, not a further parity"},
	model.Unreadable:   {"sectors that cannot be read in a rebuild", "scrubbing, or a controller that skips them"},
	model.SparesOut:    {"further failures when no hot spare is left", "another hot spare, or one that is replaced sooner"},
	model.FirstFailure: {"the first drive to fail", "any layout with redundancy"},
}

// part is one of the things that a chance is made of.
type part struct {
	is, remedy string
	share      float64
}

// leastTold is the least share that is told of.
const leastTold = 0.02

// madeOf returns the parts in words, the largest first, and what touches the largest.
func madeOf(parts []part) string {
	slices.SortStableFunc(parts, func(x, y part) int { return -cmp.Compare(x.share, y.share) })
	var said []string
	for _, p := range parts {
		if p.share >= leastTold {
			said = append(said, Percent(p.share)+" by "+p.is)
		}
	}
	if said == nil {
		return ""
	}
	return figure.List(said) + ". What would touch the most of it: " + parts[0].remedy + "."
}

// losses says what the losses of a choice are made of; empty where none was seen.
func losses(o study.Outcome) string {
	var parts []part
	for _, s := range o.Result.LossShares {
		c := lossCauses[s.Cause]
		parts = append(parts, part{c.is, c.remedy, s.Value})
	}
	text := madeOf(parts)
	if text == "" {
		return ""
	}
	return "Losses come " + text
}

// missing says what makes clips that are asked for be missing; empty without cameras.
func (a answers) missing(i int) string {
	o := a.Outcomes[i]
	m, r := o.Result.MissingByCause, o.Result.MissingByRecorder
	all := o.Result.MissingClip.Value
	if !o.Result.HasCameras || !(all > 0) {
		return ""
	}
	of := func(e estimate.Estimate, is, remedy string) part { return part{is, remedy, e.Value / all} }
	parts := []part{
		of(m.Drives, "lost groups of drives", "what touches losses"),
		of(m.Unreadable, "sectors that cannot be read", "scrubbing"),
		of(m.Shortfall, "a recorder that is too small", "more or larger drives"),
		of(r.Power, "the recorder's power supply", "a redundant power supply"),
		of(r.SystemDisk, "the recorder's system disk", "a mirrored system disk"),
		of(r.Mains, "mains outages beyond the UPS", "a UPS that bridges longer"),
		of(r.Swaps, "powering down to replace drives", "a recorder in which drives are replaced while it runs"),
	}
	text := madeOf(parts)
	if text == "" {
		return ""
	}
	return fmt.Sprintf("Of clips that are asked for, %s is missing: %s", Odds(MissingRisk(o)), text)
}

// leftOut says which hazards the file leaves out that would turn the answer.
func (a answers) leftOut() (all []string) {
	if a.Doubt == nil {
		return nil
	}
	for _, l := range a.Doubt.LeftOut {
		if !l.Matters {
			continue
		}
		most, least := -1, -1
		for i, f := range l.Factor {
			if !f.Known() {
				continue
			}
			if most < 0 || f.Value > l.Factor[most].Value {
				most = i
			}
			if least < 0 || f.Value < l.Factor[least].Value {
				least = i
			}
		}
		if most < 0 {
			continue
		}
		text := fmt.Sprintf("The file leaves out %s. With it %s would lose footage %s times as often: %s.", l.Says, a.name(most), Times(l.Factor[most].Value), Odds(l.Chance[most]))
		switch f := l.Factor[least].Value; {
		case least == most:
		case f < 1.1:
			text += fmt.Sprintf(" It does nothing to %s.", a.name(least))
		default:
			text += fmt.Sprintf(" Least moved is %s: %s times, %s.", a.name(least), Times(f), Odds(l.Chance[least]))
		}
		all = append(all, text+fmt.Sprintf(" To count it: %s = %s.", l.Path, l.Setting))
	}
	return all
}

// idle says what the file gives and nothing depends on.
func (a answers) idle() (all []string) {
	if a.Doubt != nil {
		for _, in := range a.Doubt.Idle {
			all = append(all, fmt.Sprintf("The range of the %s (%s) moves nothing here.", in.Called, in.Path))
		}
	}
	var drives []string
	for _, o := range a.Outcomes {
		name := label.Short(o.Choice.Drive.Label)
		if o.Choice.Care.Scrub != nil && o.Redundant() && o.Choice.Drive.LatentMean == 0 && !slices.Contains(drives, name) {
			drives = append(drives, name)
		}
	}
	if drives != nil {
		all = append(all, fmt.Sprintf("Scrubbing has nothing to find: the file gives no latent_defects for the %s drives.", figure.List(drives)))
	}
	return all
}
