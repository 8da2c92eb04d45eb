// Package print writes the results of commands as tables for a terminal, with one
// function for each command, named like it: [Check], [Size], [Compare], [Vary],
// [Rank], [Lesson], [Replay] and [Fit].
//
// The text has at most a hundred columns and no colour. Figures are never
// truncated, and every estimate has its 95 % interval beside it, rounded to the
// digits that the interval supports. Where bit rates are estimated, a figure that
// rests on them has a ~, with its range beneath.
package print

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// columnsWide is what the tables are laid out for.
const columnsWide = 100

// plain returns a label that can do a terminal no harm: control characters, and the
// invisible ones that turn the direction of writing, become replacement characters.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		const joiner, nonJoiner = '\u200d', '\u200c' // part of words and of pictures
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case r == joiner || r == nonJoiner:
			return r
		case unicode.Is(unicode.C, r):
			return unicode.ReplacementChar
		}
		return r
	}, s)
}

// column is a column of a table. Figures are aligned right, words left and wrapped.
type column struct {
	title string
	words int // width at which words wrap; 0 for figures
}

// layOut returns a table under its headings, its columns two blanks apart.
func layOut(columns []column, rows [][]string) string {
	t := table.NewWriter()
	style := table.StyleDefault
	style.Format.Header = text.FormatDefault
	style.Options = table.Options{SeparateHeader: true}
	style.Box.PaddingLeft, style.Box.PaddingRight = "", "  "
	t.SetStyle(style)
	t.SuppressTrailingSpaces()
	var heads table.Row
	var configs []table.ColumnConfig
	for i, c := range columns {
		heads = append(heads, c.title)
		config := table.ColumnConfig{Number: i + 1, Align: text.AlignRight, AlignHeader: text.AlignRight, VAlignHeader: text.VAlignBottom}
		if c.words > 0 {
			config.Align, config.AlignHeader = text.AlignLeft, text.AlignLeft
		}
		configs = append(configs, config)
	}
	t.SetColumnConfigs(configs)
	t.AppendHeader(heads)
	for _, cells := range rows {
		var row table.Row
		for i, c := range cells {
			if wide := columns[i].words; wide > 0 {
				c = wrapped(c, wide)
			}
			row = append(row, c)
		}
		t.AppendRow(row)
	}
	return t.Render() + "\n"
}

// wrapped returns s with each line broken at blanks, and words longer than a line
// broken anywhere.
func wrapped(s string, width int) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		if text.StringWidthWithoutEscSequences(l) > width {
			lines[i] = text.WrapSoft(l, width)
		}
	}
	return strings.Join(lines, "\n")
}

// paragraph returns text wrapped to the width of the tables, its later lines
// indented.
func paragraph(format string, a ...any) string { return paragraphIn(columnsWide, format, a...) }

func paragraphIn(width int, format string, a ...any) string {
	const indent = "  "
	// A number is not broken between lines at the spaces that group its digits.
	const kept = "\ue000"
	whole := strings.NewReplacer("\u202f", kept, "\u00a0", kept).Replace(fmt.Sprintf(format, a...))
	lines := strings.Split(strings.ReplaceAll(wrapped(whole, width-len(indent)), kept, " "), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n"+indent) + "\n"
}
