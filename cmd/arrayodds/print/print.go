// Package print writes for people at a terminal: [Ranked] what compare found,
// [Fewest] what size found, [Judged] what check read, [Varied], [Moved] and [Asked]
// what vary, rank and lesson found, [Replayed] the lives that were told, [Fitted] what a record says.
// Plain text of at most a hundred columns, without colour; figures are never cut
// short, and every estimate has its 95 % interval beside it, rounded to what that
// interval supports. Where bit rates are estimated, a figure that rests on them
// has a ~, and the range beneath.
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

// plain is a label that can do a terminal no harm: control characters, and the
// invisible ones that turn the direction of writing, are shown as a replacement
// mark.
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

// column is a column of a table: figures stand right, words left and wrapped.
type column struct {
	title string
	words int // width at which words wrap; 0 for figures
}

// lay sets a table out under its headings, columns two blanks apart.
func lay(columns []column, rows [][]string) string {
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

// wrapped breaks each line of s at blanks; words that are longer than a line are
// broken where they must.
func wrapped(s string, width int) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		if text.StringWidthWithoutEscSequences(l) > width {
			lines[i] = text.WrapSoft(l, width)
		}
	}
	return strings.Join(lines, "\n")
}

// paragraph is words wrapped to the width of the tables, later lines indented.
func paragraph(format string, a ...any) string {
	const indent = "  "
	lines := strings.Split(wrapped(fmt.Sprintf(format, a...), columnsWide-len(indent)), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n"+indent) + "\n"
}
