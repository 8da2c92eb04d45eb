package edit

import (
	"bytes"
	"slices"
	"strings"
)

// Splice is other bytes in the place of those from From up to To.
type Splice struct {
	From, To int
	Text     string
}

// Apply returns the text with the splices, which do not overlap. Whether the last line
// has an end stays as it was.
func (t *Text) Apply(splices ...Splice) []byte {
	splices = slices.Clone(splices)
	slices.SortStableFunc(splices, func(a, b Splice) int { return a.From - b.From })
	var b bytes.Buffer
	at := 0
	b.WriteString(t.mark)
	for _, s := range splices {
		b.Write(t.data[at:s.From])
		b.WriteString(s.Text)
		at = s.To
	}
	b.Write(t.data[at:])
	return t.ended(b.Bytes())
}

// ended gives the last line of a text an end, or takes it away, so that it is as in the
// text that it comes from.
func (t *Text) ended(text []byte) []byte {
	if len(t.data) == 0 || len(text) == 0 {
		return text
	}
	was, is := t.data[len(t.data)-1] == '\n', text[len(text)-1] == '\n'
	switch {
	case was && !is:
		return append(text, t.end...)
	case !was && is:
		return bytes.TrimSuffix(bytes.TrimSuffix(text, []byte("\n")), []byte("\r"))
	}
	return text
}

// insert returns the splice that puts whole lines in at the start of a line or at the
// end of the text.
func (t *Text) insert(at int, lines string) Splice {
	lines = t.own(lines)
	if at > 0 && t.data[at-1] != '\n' {
		lines = t.end + lines
	}
	return Splice{at, at, lines}
}

// own returns lines with the ends that the text has.
func (t *Text) own(lines string) string {
	lines = strings.ReplaceAll(lines, "\r\n", "\n")
	return strings.ReplaceAll(lines, "\n", t.end)
}
