package schedule

import (
	"strings"
	"testing"
)

// TestLinesOfCSVAreBounded: one line of 16 MiB would be two million cells, each with
// its place.
func TestLinesOfCSVAreBounded(t *testing.T) {
	t.Parallel()
	const headings = "label,count\n"
	for name, c := range map[string]struct{ in, want string }{
		"cells":        {headings + strings.Repeat(",", maxLine+1), "s.csv, line 2: found a line of more than 1048576 bytes"},
		"quoted lines": {headings + "\"" + strings.Repeat("\n", maxLine+1), "s.csv, line 2: found a line of more than 1048576 bytes"},
		"many cells":   {headings + strings.Repeat(strings.Repeat("x,", maxColumns-1)+"\n", maxRows-1), "s.csv, row 1564: found more than 400000 cells so far"},
		"no headings":  {strings.Repeat(strings.Repeat("x,", 39)+"\n", maxRows), "s.csv: found no row of headings"},
	} {
		if _, err := Read([]byte(c.in), "s.csv", nil); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
