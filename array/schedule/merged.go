package schedule

import (
	"cmp"
	"fmt"
	"iter"
	"slices"

	"arrayodds/array/unit"
)

// Merged is cells that are one: rows and columns, counted from 0, the last ones
// included. What it holds stands in its first cell.
type Merged struct{ Top, Left, Bottom, Right int }

// line is a row with what merged cells carry down into it. It stands until the next.
type line struct {
	row   int
	texts []string
	from  map[int]Merged // columns whose text was carried down, and from where
}

// lines goes through the rows. A cell merged downwards holds for each of its rows.
func (s *Sheet) lines() iter.Seq[line] {
	return func(yield func(line) bool) {
		tall := slices.DeleteFunc(slices.Clone(s.Merged), func(m Merged) bool {
			return m.Bottom <= m.Top || m.Top < 0 || m.Left < 0 || m.Left >= maxColumns
		})
		slices.SortStableFunc(tall, func(a, b Merged) int { return cmp.Compare(a.Top, b.Top) })
		var open [maxColumns]*Merged // by column, the last one that began
		wide := 0                    // columns up to the last that may be open
		var texts []string
		for i, row := range s.Rows {
			l := line{row: i, texts: row}
			for j := range wide {
				m := open[j]
				if m == nil || m.Bottom < i || j < len(row) && !blank(row[j]) || m.Top >= len(s.Rows) || j >= len(s.Rows[m.Top]) {
					continue
				}
				if l.from == nil {
					l.from = map[int]Merged{}
					texts = append(texts[:0], row...)
				}
				for len(texts) <= j {
					texts = append(texts, "")
				}
				texts[j], l.texts = s.Rows[m.Top][j], texts
				l.from[j] = *m
			}
			if l.from != nil {
				l.texts = texts
			}
			for len(tall) > 0 && tall[0].Top == i {
				open[tall[0].Left], wide = &tall[0], max(wide, tall[0].Left+1)
				tall = tall[1:]
			}
			if !yield(l) {
				return
			}
		}
	}
}

// across reports whether a row begins with merged cells that span three columns or
// more, as the heading of a part of the schedule does.
func (r *reading) across(row int) bool {
	for j, text := range r.sheet.Rows[row] {
		if !blank(text) {
			m, merged := r.merged[place{row, j}]
			return merged && m.Right-m.Left >= 2
		}
	}
	return false
}

// summed returns the fault of a number of cameras that spans several groups, of which
// nobody can tell how many each has.
func (r *reading) summed(row, column int, c Cell) *Fault {
	m, merged := r.merged[place{row, column}]
	if !merged {
		return nil
	}
	for i := row + 1; i <= m.Bottom && i < len(r.sheet.Rows); i++ {
		for j, text := range r.sheet.Rows[i] {
			if _, read := r.columns[j]; read && !blank(text) {
				return &Fault{Found: fmt.Sprintf("%s, merged over rows %d to %d", unit.Quote(c.Text), m.Top+1, m.Bottom+1), Right: "a number of cameras in each row"}
			}
		}
	}
	return nil
}

// noteMerged notes the merged cells that a group takes from, each once.
func (r *reading) noteMerged(l line) {
	for j := range l.texts {
		m, down := l.from[j]
		if _, read := r.columns[j]; down && read && !r.noted[m] {
			r.noted[m] = true
			r.note(r.sheet.cell(m.Top, m.Left), fmt.Sprintf("%s, merged down to row %d: taken for each of its rows", unit.Quote(Squeezed(l.texts[j])), m.Bottom+1))
		}
	}
}
