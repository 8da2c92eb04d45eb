package site

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// maxCurrency is how long the name of a currency may be, in characters: it stands
// behind every sum.
const maxCurrency = 8

const currencyRight = `1 to 8 characters without digits, such as "EUR"`

// readCurrency reads what sums are in. Behind a number a digit would be read as
// part of it.
func readCurrency(t *toml.Table, dst *string) {
	const key = "currency"
	n := t.Ask(key)
	if n == nil {
		return
	}
	s, ok := t.Line(key, n)
	switch {
	case !ok:
	case utf8.RuneCountInString(s) > maxCurrency || strings.ContainsFunc(s, unicode.IsDigit):
		t.WrongAt(n, key, unit.Quote(s), currencyRight, "")
	default:
		*dst = s
		t.NoteValue(key, s)
	}
}

var documentKey = Key{Path: "document", Kind: toml.SubTable, Doc: "What a page that is handed to a customer carries beside its figures."}

var documentKeys = []Key{
	{Path: "customer", Kind: toml.Text, Doc: "For whom it is."},
	{Path: "prepared_by", Kind: toml.Text, Doc: "Who is answerable for it."},
	{Path: "reference", Kind: toml.Text, Doc: "By what it is filed."},
	{Path: "valid_until", Kind: toml.Date, Doc: "The last day on which it holds."},
	{Path: "logo", Kind: toml.Text, Right: logoRight, Doc: "A picture of at most 256 KiB and 4 096 pixels a side, written into the page."},
}

// document reads what a page says of itself. It is nothing that the result rests on,
// and so is not noted.
func (r *reader) document(t *toml.Table) (d array.Document) {
	c := t.Child("document")
	if c == nil {
		return d
	}
	c.Quiet = true
	c.Text("customer", &d.Customer)
	c.Text("prepared_by", &d.PreparedBy)
	c.Text("reference", &d.Reference)
	c.Date("valid_until", &d.ValidUntil)
	d.Logo = r.readLogo(c)
	c.Done()
	return d
}

var goalKey = Key{Path: "goal", Kind: toml.SubTable, Doc: "What every choice is held against."}

var goalKeys = []Key{
	{Path: "loss_chance", Kind: toml.Measured, Quantity: toml.Odds, Min: "1e-15", Max: "0.999", Required: true,
		Doc: "The chance of losing footage within the service life is to be at most this."},
	{Path: "missing_clip", Kind: toml.Measured, Quantity: toml.Odds, Min: "1e-15", Max: "0.999",
		Doc: "The chance that a clip asked for is missing is to be at most this."},
	{Path: "budget", Kind: toml.Number, Min: "0.01", Max: "1e12",
		Doc: "The whole service life is to cost at most this, in the site's currency."},
}

// readGoal reads what choices are to reach.
func readGoal(t *toml.Table) *array.Goal {
	c := t.Child("goal")
	if c == nil {
		return nil
	}
	g := &array.Goal{}
	c.Quantity("loss_chance", &g.LossChance)
	c.Quantity("missing_clip", &g.MissingClip)
	c.Number("budget", &g.Budget)
	c.Done()
	return g
}
