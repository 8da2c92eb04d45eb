package promises

import (
	_ "embed" // the page is the package's doc
	"go/doc/comment"
	"strings"
)

//go:embed doc.go
var source string

// width is the longest line of the page, in characters.
const width = 88

// Text returns the page as plain text.
func Text() string {
	var doc strings.Builder
	for line := range strings.Lines(source) {
		words, isComment := strings.CutPrefix(line, "//")
		if !isComment {
			break
		}
		doc.WriteString(strings.TrimPrefix(words, " "))
	}
	var p comment.Parser
	printer := comment.Printer{TextWidth: width}
	_, page, _ := strings.Cut(string(printer.Text(p.Parse(doc.String()))), "\n\n") // the first paragraph is about the package
	var text strings.Builder
	text.WriteString("WHAT YOU MAY RELY ON\n\n")
	for line := range strings.Lines(page) {
		if heading, ok := strings.CutPrefix(line, "# "); ok {
			line = strings.ToUpper(heading)
		}
		text.WriteString(line)
	}
	return text.String()
}
