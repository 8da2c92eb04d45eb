package sheet

import "unicode"

// The page is set smaller where it says more than fits it in the usual size: by class, as
// the style sheet has them, from so many letters on.
var sizes = []struct {
	from  int
	class string
}{{4700, "tiny-type"}, {3600, "small-type"}}

// size returns the class that everything that varies fits the page in; empty for the usual
// size.
func (c *contents) size() string {
	const row = 100 // letters that go where a row would
	total := letters(c.Title) + letters(c.Question) - row*(mostRows-len(c.Picture.Rows))
	for _, f := range c.Facts {
		total += 2 * letters(f.Text) // of a narrow column
	}
	for _, all := range [][]string{c.Advice, c.Picture.Notes, c.Assumed.LeftOut, c.Assumed.MadeOf, {c.Assumed.Nothing}, c.Cautions, c.Small} {
		for _, text := range all {
			total += letters(text)
		}
	}
	for _, r := range c.Picture.Rows {
		total += letters(r.Mark.Label) + letters(r.Price)
	}
	for _, a := range c.Assumed.Most {
		total += letters(a.Called) + letters(a.Range) + letters(a.Moves) + letters(a.Ground)
	}
	for _, s := range c.Pair {
		total += letters(s.Mark.Label) + letters(s.Rest) + letters(s.Price)
	}
	for _, s := range sizes {
		if total >= s.from {
			return s.class
		}
	}
	return ""
}

// letters returns how many letters of the usual width take as much room as a text.
func letters(text string) int {
	n := 0
	for _, r := range text {
		n++
		if r >= squares || unicode.IsUpper(r) {
			n++
		}
	}
	return n
}

// squares is from where on most scripts fill a square with each letter.
const squares = 0x1100
