package promises

import (
	"strings"
	"testing"
	"unicode/utf8"

	"arrayodds/cmd/arrayodds/export/schema"
)

// The page is the package's documentation, line by line and with nothing lost: one place
// says what is promised.
func TestTextIsTheDoc(t *testing.T) {
	text := Text()
	for line := range strings.Lines(text) {
		if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > width {
			t.Errorf("%d characters: %s", n, line)
		}
		if strings.HasPrefix(line, "//") || strings.HasPrefix(line, "#") || strings.Contains(line, "package promises") {
			t.Errorf("no line for people: %s", line)
		}
	}
	in := strings.Join(strings.Fields(text), " ")
	_, doc, _ := strings.Cut(source, "\n//\n")
	doc, _, _ = strings.Cut(doc, "package promises")
	for paragraph := range strings.SplitSeq(doc, "\n//\n") {
		words := strings.Join(strings.Fields(strings.ReplaceAll(paragraph, "//", " ")), " ")
		if heading, ok := strings.CutPrefix(words, "# "); ok {
			words = strings.ToUpper(heading)
		}
		if !strings.Contains(in, words) {
			t.Errorf("left out: %s", words)
		}
	}
}

// The format that the page speaks of is that of the schema.
func TestFormatIsThatOfTheSchema(t *testing.T) {
	if !strings.Contains(Text(), `"format": 1 in it`) || !strings.Contains(schema.Text, `"const": 1`) {
		t.Error("the page and the schema speak of different formats")
	}
}
