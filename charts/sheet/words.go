package sheet

import (
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/figure"
)

// assumed is what matters most of what was assumed of one choice, and what was not.
type assumed struct {
	Of      draw.Mark
	Most    []answer.Assumed
	Nothing string   // in place of these, or after them where they are few; empty: there are more
	MadeOf  []string // what its losses and its missing clips are made of, where that is known
	LeftOut []string
}

const (
	mostAssumed = 3
	mostLeftOut = 2
	// In letters.
	longCalled = 64
	longRange  = 72
)

func (s sheet) assumed() assumed {
	of := s.said.Order[0]
	if len(s.said.Compared) > 0 {
		of = s.said.Compared[0]
	}
	said := s.said.Choices[of]
	a := assumed{Of: s.mark(of)}
	for _, text := range []string{said.Losses, said.Missing} {
		if text != "" && !slices.Contains(s.said.Advice, text) {
			a.MadeOf = append(a.MadeOf, glued(text))
		}
	}
	for _, x := range said.Assumed[:min(mostAssumed, len(said.Assumed))] {
		a.Most = append(a.Most, answer.Assumed{
			Called: label.Cut(figure.Capital(x.Called), longCalled), Range: glued(label.Cut(x.Range, longRange)),
			Moves: x.Moves, Ground: label.Cut(x.Ground, longRange),
		})
	}
	switch {
	case len(a.Most) == mostAssumed:
	case len(a.Most) > 0:
		a.Nothing = "Nothing else moves it by more than a fifth."
	case s.uncertain():
		a.Nothing = "Nothing that is uncertain of the inputs moves its chance by more than a fifth."
	case s.Plain:
		a.Nothing = "How far the assumptions move its chance was not worked out: this run went life by life, to check."
	default:
		a.Nothing = "How far the assumptions move its chance was not worked out."
	}
	for _, text := range said.LeftOut[:min(mostLeftOut, len(said.LeftOut))] {
		a.LeftOut = append(a.LeftOut, glued(figure.Capital(text))+".")
	}
	if n := len(said.LeftOut) - mostLeftOut; n > 0 {
		a.LeftOut = append(a.LeftOut, fmt.Sprintf("There is more of it (%d) in the report.", n))
	}
	return a
}

// glued keeps a number and its words in one line.
func glued(text string) string { return glue.Replace(text) }

var glue = strings.NewReplacer(" %", "\u00a0%", "1 in ", "1\u00a0in\u00a0", " million", "\u00a0million", " billion", "\u00a0billion", " trillion", "\u00a0trillion")

// cautions returns in brief what study.Cautions says at length.
func (s sheet) cautions() []string {
	all := []string{
		"RAID is no backup: it does not help against deletion, fire, theft, water or a mistake. What must not be lost needs a second copy elsewhere.",
		"A simulated chance is an estimate under stated assumptions, not a promise.",
		"How long footage must or may be kept, and what may be recorded, is a matter of local law on retention and privacy: ask those who answer for it.",
		"Recorders and their batteries carry mains power, and racks of drives are heavy: electrical work by qualified people, lifting by enough hands.",
	}
	if s.Site.Estimated() {
		all = append(all, "Some bit rates are estimates: measure the streams before buying.")
	}
	if s.Plain {
		all = append(all, "Where this run saw no loss, that is no proof that there is none.")
	}
	return all
}

// small returns the small print.
func (s sheet) small() []string {
	all := []string{page.Method(s.Seed, s.Accuracy, s.Plain)}
	if s.uncertain() {
		all = append(all, fmt.Sprintf("All that is uncertain was drawn together at %d settings.", s.Doubt.Settings))
	}
	return append(all, s.said.Notes...)
}
