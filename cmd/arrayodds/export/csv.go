package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// writeCSV writes a sheet as RFC 4180 has it: commas, CRLF, quotes where needed. A
// number has a decimal point whatever the locale; what is not known is empty.
//
// A spreadsheet takes a cell that begins with = + - or @ for a formula and runs
// it. Words that begin so, a label being anybody's, are written with an
// apostrophe in front, which spreadsheets take as "this is text".
func writeCSV(w io.Writer, s sheet) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	record := make([]string, len(s.heads))
	for i, h := range s.heads {
		record[i] = harmless(h.name)
	}
	if err := out.Write(record); err != nil {
		return err
	}
	for _, row := range s.rows {
		for i, cell := range row {
			text, err := csvCell(cell)
			if err != nil {
				return fmt.Errorf("%v, %s: %w", row[0], s.heads[i].name, err)
			}
			record[i] = text
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func csvCell(v any) (string, error) {
	switch v := v.(type) {
	case nil:
		return "", nil
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

// harmless returns s with an apostrophe in front if a spreadsheet would run it.
func harmless(s string) string {
	t := strings.TrimLeft(s, " \n")
	if t != "" && strings.ContainsRune(formulaStarts, []rune(t)[0]) {
		return "'" + s
	}
	return s
}
