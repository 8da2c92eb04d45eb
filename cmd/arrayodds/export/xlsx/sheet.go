package xlsx

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// xml returns the part of a sheet; selected is the one that a program shows first.
func (s Sheet) xml(selected bool, texts *texts, styles *styles) (string, error) {
	var b strings.Builder
	b.WriteString(`<worksheet xmlns="` + spreadsheet + `"><sheetViews><sheetView workbookViewId="0"`)
	if selected {
		b.WriteString(` tabSelected="1"`)
	}
	b.WriteString(`><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><cols>`)
	formats := make([]int, len(s.Columns))
	for i, c := range s.Columns {
		formats[i] = styles.of(c.Format)
		fmt.Fprintf(&b, `<col min="%d" max="%d" width="%v" customWidth="1"/>`, i+1, i+1, c.Width)
	}
	b.WriteString(`</cols><sheetData><row r="1">`)
	for i, c := range s.Columns {
		writeCell(&b, i, 1, heading, ` t="s"`, strconv.Itoa(texts.of(c.Title)))
	}
	b.WriteString(`</row>`)
	for i, row := range s.Rows {
		fmt.Fprintf(&b, `<row r="%d">`, i+2)
		for j, c := range s.Columns {
			kind, value := "", ""
			switch v := row[j].(type) {
			case nil:
			case string:
				kind, value = ` t="s"`, strconv.Itoa(texts.of(v))
			case int:
				value = strconv.Itoa(v)
			case float64:
				if math.IsNaN(v) || math.IsInf(v, 0) {
					return "", fmt.Errorf("%s: no cell for %v", c.Title, v)
				}
				value = strconv.FormatFloat(v, 'g', -1, 64)
			default:
				return "", fmt.Errorf("%s: no cell for a %T", c.Title, v)
			}
			writeCell(&b, j, i+2, formats[j], kind, value)
		}
		b.WriteString(`</row>`)
	}
	b.WriteString(`</sheetData></worksheet>`)
	return b.String(), nil
}

// writeCell writes a cell, its column counted from 0 and its row from 1.
func writeCell(b *strings.Builder, column, row, style int, kind, value string) {
	fmt.Fprintf(b, `<c r="%s%d" s="%d"%s`, letters(column), row, style, kind)
	if value == "" {
		b.WriteString(`/>`)
		return
	}
	b.WriteString(`><v>` + value + `</v></c>`)
}

// letters returns the name of a column: A, Z, AA.
func letters(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}
