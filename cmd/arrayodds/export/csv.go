package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"arrayodds/sim/study"
)

// CSV writes one row a choice under a heading whose names end in their unit
// (chances are 0 to 1), as RFC 4180 has it: commas, CRLF, quotes where needed.
// A number has a decimal point whatever the locale; what is not known is empty.
//
// A spreadsheet takes a cell that begins with = + - or @ for a formula and runs
// it. Words that begin so, a label being anybody's, are written with an
// apostrophe in front, which spreadsheets take as "this is text".
func CSV(w io.Writer, r study.Comparison) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	all := columns(r.Site)
	row := make([]string, len(all))
	for i, c := range all {
		row[i] = c.name
	}
	if err := out.Write(row); err != nil {
		return err
	}
	for _, o := range r.Outcomes {
		for i, c := range all {
			cell, err := csvCell(c.value(o))
			if err != nil {
				return fmt.Errorf("choice %q, %s: %w", o.Choice.Label, c.name, err)
			}
			row[i] = cell
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func csvCell(v any) (string, error) {
	switch v := v.(type) {
	case int:
		return strconv.Itoa(v), nil
	case float64:
		if math.IsNaN(v) {
			return "", nil
		}
		return strconv.FormatFloat(tidy(v), 'g', -1, 64), finite(v)
	case string:
		return harmless(v), nil
	}
	return "", fmt.Errorf("no cell for a %T", v)
}

// formulaStarts begin a formula in one spreadsheet or another: the four signs,
// their full-width forms, and the two blanks that some skip before looking.
const formulaStarts = "=+-@\t\r＝＋－＠"

// harmless puts an apostrophe before what a spreadsheet would run.
func harmless(s string) string {
	t := strings.TrimLeft(s, " \n")
	if t != "" && strings.ContainsRune(formulaStarts, []rune(t)[0]) {
		return "'" + s
	}
	return s
}
