package schedule

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"arrayodds/array/pattern"
)

// totals is what a row of totals says, in the languages of Europe: common words, from
// memory, no source.
var totals = []string{
	"total", "totals", "subtotal", "sub-total", "sub total", "subtotals", "sub-totals", "sub totals", "grand total", "overall total", "sum", "sums", "overall", "σ", "∑",
	"summe", "zwischensumme", "gesamtsumme", "gesamt", "insgesamt", "total général", "total general", "sous-total", "somme", "totale", "totale generale", "subtotale",
	"somma", "suma", "suma total", "total geral", "totaal", "subtotaal", "totalt", "i alt", "summa", "yhteensä", "kokku", "kopā", "iš viso", "celkem", "mezisoučet", "součet",
	"spolu", "razem", "ogółem", "łącznie", "ukupno", "skupaj", "összesen", "toplam", "σύνολο", "итого", "всего", "разом", "усього", "общо", "всичко",
}

// longestTotal is how many bytes of a text are looked at for a word for a total.
const longestTotal = 60

// isTotal reports whether a text is a word for a total and nothing else.
func isTotal(text string) bool {
	return len(text) <= longestTotal && slices.Contains(totals, strings.ToLower(strings.TrimRight(Squeezed(text), " :=.")))
}

// beginsAsTotal reports whether a text begins with a word for a total.
func beginsAsTotal(text string) bool {
	text = strings.ToLower(text[:min(len(text), longestTotal)])
	return slices.ContainsFunc(totals, func(word string) bool {
		rest, ok := strings.CutPrefix(text, word)
		next, _ := utf8.DecodeRuneInString(rest)
		return ok && !unicode.IsLetter(next) && !unicode.IsDigit(next)
	})
}

// total returns the text by which a row is a total and no group; empty where it is
// a group. A row without a word may add up what is above it.
func total(texts []string, row Row, above ...sum) string {
	for _, t := range texts {
		if isTotal(t) {
			return Squeezed(t)
		}
	}
	label, count := row.Cells["label"].Text, row.Cells["count"]
	_, rate := row.Cells["bitrate"]
	_, codec := row.Cells["codec"]
	_, kept := row.Cells["retention"]
	switch {
	case kept && (rate || codec):
	case beginsAsTotal(label):
		return label
	case label == "" && !kept && !codec && !rate && slices.ContainsFunc(above, func(s sum) bool { return s.groups > 1 && s.cameras == number(count) }):
		return count.Text
	}
	return ""
}

// sum is the cameras of some groups.
type sum struct {
	groups  int
	cameras float64
}

func (s *sum) add(row Row) {
	s.groups++
	s.cameras += number(row.Cells["count"])
}

// number returns the number of a cell, 0 where it is none.
func number(c Cell) float64 {
	if x, err := strconv.ParseFloat(c.Text, 64); err == nil && c.Number {
		return x
	}
	return 0
}

// marked is how footnotes begin: with a mark, a number in brackets, or a word for a
// note and a colon. Common practice, no source.
var marked = pattern.Of(`^(?:[*†‡§¹²³⁴⁵⁶⁷⁸⁹]|\(?\d{1,2}\)|[\[(]\d{1,2}[\])]|` +
	`(?i:notes?|nota bene|n\.? ?b\.?|remarks?|comments?|sources?|legend|key|hinweise?|anmerkung(?:en)?|bemerkung(?:en)?|quellen?|` +
	`remarques?|légende|notas?|osservazioni|fonte|fuente|observaciones|observações|opmerking(?:en)?|poznámk[ay]|uwag[ai]|megjegyzés|bemærk|obs|huom) ?[:–-])`)

// remark returns the text of a row that says something and is no group: empty where
// it may be one. own is its filled cells; across says that the only one spans columns;
// below, that it stands beneath all groups and apart from them.
func remark(own []string, row Row, across, below bool) string {
	if len(own) == 0 {
		return ""
	}
	text := Squeezed(own[0])
	_, labelled := row.Cells["label"]
	switch {
	case len(row.Cells) == 0:
		return text // nothing under the headings that are read
	case len(own) > 1 || !labelled:
		return ""
	case across || below || marked().MatchString(text):
		return text
	}
	return ""
}
