package session

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/schedule/workbook"
	"arrayodds/array/site"
	"arrayodds/array/site/rewrite"
	"arrayodds/sim/figure"
	"arrayodds/sim/sizing"
)

// sizedAnswer is the answer of size.
type sizedAnswer struct {
	pointed
	Suggestions []size `json:"suggestions"` // of each layout the one that costs least
	// Text is the site file with the suggestions in place of its choices; empty where
	// there are none.
	Text string `json:"text"`
}

// size finds the fewest drives that hold the footage; nothing is simulated.
func (s *Session) size(_ context.Context, r request) (response, error) {
	q, err := s.question(r, true)
	if err != nil {
		return response{}, err
	}
	bays, spares := q.Bays(), q.SparesBeside()
	q.CheckSizing(q.file(), siteName, bays)
	if err := q.err(); err != nil {
		return response{}, err
	}
	found := sizing.Suggest(q.file(), bays, spares)
	s.keep("size", found)
	out := sizedAnswer{pointed: pointed{sizingPoints(found)}, Suggestions: []size{}}
	for i, c := range found.Choices {
		said, err := sizeOf(q.file().Site, c, i)
		if err != nil {
			return response{}, err
		}
		out.Suggestions = append(out.Suggestions, said)
	}
	if len(found.Choices) > 0 {
		out.Text = string(rewrite.WithChoices([]byte(q.text), q.file().Site.Cameras, found.Choices))
		// What is offered must be read again, labels and bays and all.
		if _, err := site.Read(strings.NewReader(out.Text), siteName, site.Beside(q.files), site.Workbooks(workbook.Read)); err != nil {
			return response{}, fmt.Errorf("the suggestions do not go into the site file: %w", plainError{err})
		}
	}
	return response{answer: out}, nil
}

// sizingPoints says what the suggestions rest on.
func sizingPoints(z sizing.Suggestions) []string {
	says := slices.Concat([]string{z.NetworkWords(), z.WriteLimitWords(), z.EstimatedWords(), z.CountedWords(), z.RatingWords()}, z.LeftOut, []string{z.NoneWords()})
	for _, s := range z.Short {
		text := s.Layout.String() + " does not fit: "
		switch {
		case s.Choice.Drives == 0:
			text += "too few bays"
		default:
			text += fmt.Sprintf("enough would be drives of %s TB, or %s %% of the bit rate", sizing.EnoughTB(s), sizing.EnoughBitRate(s))
			if s.Bays > 0 {
				text += fmt.Sprintf(", or %s", figure.Count(s.Bays, "bay", "bays"))
			}
		}
		says = append(says, text+".")
	}
	return orEmpty(slices.DeleteFunc(says, func(s string) bool { return s == "" }))
}

// plainError is an error that is none of the user's.
type plainError struct{ error }

// sizeOf returns what a choice of a site is before chance comes in.
func sizeOf(s array.Site, c array.Choice, place int) (size, error) {
	z, err := s.Size(c)
	if err != nil {
		return size{}, err
	}
	said := size{
		Place: place, Label: c.Label, Layout: c.Layout.String(), Drives: drivesOf(c), Usable: figure.Exact(z.Usable/array.TB) + " TB",
		Meets: z.Meets, Why: shortOf(s, z),
	}
	if len(s.Cameras) > 0 {
		said.Held = figure.Days(z.Retention)
	}
	if !math.IsNaN(z.Purchase) {
		said.Cost = figure.Money(z.Purchase, s.Currency)
	}
	return said, nil
}
