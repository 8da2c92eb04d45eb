package xlsx

import (
	"fmt"
	"slices"
	"strings"
)

// Styles of cells, by their places: the first is that of cells without one.
const (
	heading = 1 + iota
	words
	firstNumber // of those with a number format
)

// firstFormat is the first number that a format may have which is not one of those
// that every program knows: ECMA-376 part 1, 18.8.30.
const firstFormat = 164

// styles are the styles of the columns so far.
type styles struct {
	numbers []string // their formats
}

// of returns the style of cells with a number format, or of words where that is empty.
func (s *styles) of(format string) int {
	if format == "" {
		return words
	}
	i := slices.Index(s.numbers, format)
	if i < 0 {
		i = len(s.numbers)
		s.numbers = append(s.numbers, format)
	}
	return firstNumber + i
}

func (s *styles) xml() string {
	var formats, cells strings.Builder
	style := func(format, font int, alignment string) {
		fmt.Fprintf(&cells, `<xf numFmtId="%d" fontId="%d" fillId="0" borderId="0" xfId="0"`, format, font)
		if format != 0 {
			cells.WriteString(` applyNumberFormat="1"`)
		}
		if font != 0 {
			cells.WriteString(` applyFont="1"`)
		}
		if alignment == "" {
			cells.WriteString(`/>`)
			return
		}
		cells.WriteString(` applyAlignment="1">` + alignment + `</xf>`)
	}
	const top, wrapped = `<alignment vertical="top"/>`, `<alignment vertical="top" wrapText="1"/>`
	style(0, 0, "")
	style(0, 1, wrapped)
	style(0, 0, wrapped)
	for i, code := range s.numbers {
		fmt.Fprintf(&formats, `<numFmt numFmtId="%d" formatCode="%s"/>`, firstFormat+i, escaped(code))
		style(firstFormat+i, 0, top)
	}
	numbers := ""
	if len(s.numbers) > 0 {
		numbers = fmt.Sprintf(`<numFmts count="%d">%s</numFmts>`, len(s.numbers), formats.String())
	}
	const font = `<sz val="11"/><name val="Calibri"/><family val="2"/></font>`
	return `<styleSheet xmlns="` + spreadsheet + `">` + numbers +
		`<fonts count="2"><font>` + font + `<font><b/>` + font + `</fonts>` +
		// The first two fills are those that programs take for granted.
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		fmt.Sprintf(`<cellXfs count="%d">%s</cellXfs>`, firstNumber+len(s.numbers), cells.String()) +
		`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`
}
