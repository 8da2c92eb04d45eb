package print

import (
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"
)

// narrowGolden is golden for what fits a terminal of 60 columns.
func narrowGolden(t *testing.T, name, got string) {
	t.Helper()
	golden(t, name, got)
	checkNarrow(t, got)
}

func checkNarrow(t *testing.T, got string) {
	t.Helper()
	for line := range strings.Lines(got) {
		if n := text.StringWidthWithoutEscSequences(strings.TrimSuffix(line, "\n")); n > 60 {
			t.Errorf("a line is %d columns wide:\n%s", n, line)
		}
	}
}

// The head of a part stands in the place of its row, as wide as it needs.
func TestLayOutHeaded(t *testing.T) {
	t.Parallel()
	got := layOutHeaded([]column{{"value", 10}, {"n", 0}}, []headed{{"a head that is wider than its column", [][]string{{"x", "1"}}}, {"another", [][]string{{"y", "2"}}}})
	if want := "value  n\n--------\na head that is wider than its column\nx      1\nanother\ny      2\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
