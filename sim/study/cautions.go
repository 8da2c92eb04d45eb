package study

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
)

// Cautions returns what a reader must know before acting on figures of choices of
// a site; they go wherever the figures go. plain says that the run went life by
// life.
func Cautions(s array.Site, choices []array.Choice, plain bool) []string {
	out := []string{
		"RAID is no backup. It does not help against deletion, fire, theft, flooding, a faulty controller or a mistake. Footage that must not be lost needs a second copy elsewhere.",
		"A simulated chance is an estimate under the assumptions listed above, not a promise. The intervals are those of the simulation alone: they do not contain the doubt about the assumptions, which is often larger.",
	}
	if text := estimatedCaution(s); text != "" {
		out = append(out, text)
	}
	out = append(out, goalCautions(s, choices)...)
	out = append(out, lawCautions(choices)...)
	if plain {
		out = append(out, "This run simulated life by life, without branching. Where it saw no loss, that is no proof that there is none: read the upper end of the interval.")
	}
	out = append(out, fmt.Sprintf("“1 in N over %s” is about one array. Who runs many arrays will see losses sooner: of N such arrays, about one.", figure.Years(s.ServiceLife/unit.HoursPerYear)))
	return append(out,
		"How long footage must or may be kept, and what may be recorded at all, is a matter of local law on retention and privacy. Ask those who answer for it.",
		"Racks of drives are heavy, and recorders and their batteries carry mains power: lifting by enough hands, electrical work by qualified people only.")
}

// goalCautions lists what of the goal nothing can be held against.
func goalCautions(s array.Site, choices []array.Choice) []string {
	var out []string
	priced := slices.ContainsFunc(choices, func(c array.Choice) bool { return !math.IsNaN(c.Drive.Price) })
	if g := s.Goal; g != nil && g.Budget > 0 && !priced {
		out = append(out, "The site file has a budget and no price of any drive, so nothing is held against the budget.")
	}
	if g := s.Goal; g != nil && g.MissingClip > 0 && len(s.Cameras) == 0 {
		out = append(out, "The site file has a goal for missing clips and no cameras, so nothing is held against that goal.")
	}
	return out
}

// lawCautions lists what the laws of the choices say of themselves, each once:
// first laws of life that are stated, then those of a record, then those of time.
func lawCautions(choices []array.Choice) []string {
	var out []string
	add := func(text string) {
		if text != "" && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	for _, recorded := range []bool{false, true} {
		for _, c := range choices {
			if c.Drive.Life == nil {
				continue
			}
			if about := c.Drive.Life.About(); about.Recorded == recorded {
				add(about.Caution)
			}
		}
	}
	for _, c := range choices {
		for _, t := range []array.Time{c.Care.Notice, c.Care.Response, c.Care.Restock, c.Care.Scrub, c.Care.Restore} {
			if t != nil {
				add(t.Caution())
			}
		}
	}
	return out
}

// estimatedCaution names the camera groups whose bit rate is an estimate.
func estimatedCaution(s array.Site) string {
	var names []string
	for i, c := range s.Cameras {
		if !c.Estimated() {
			continue
		}
		name := label.Short(c.Label)
		if name == "" {
			name = fmt.Sprintf("group %d", i+1)
		}
		names = append(names, name)
	}
	const most = 8
	if len(names) == 0 {
		return ""
	}
	if n := len(names) - most; n > 0 {
		names = append(names[:most:most], fmt.Sprintf("%d more", n))
	}
	return "Bit rates of " + figure.List(names) + " are estimated from pixels, frames a second and codec (common practice, no source). Scenes with much movement or noise take more, and all figures here but the ranges and the table for the ends of the estimate use the likely rate. Measure the streams, or read the encoder's settings, before buying."
}
