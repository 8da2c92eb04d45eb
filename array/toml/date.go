package toml

import "time"

// Date reads a day, which dst gets as its beginning in UTC.
func (t *Table) Date(key string, dst *time.Time) {
	n := t.Ask(key)
	if n == nil {
		return
	}
	day, err := time.Parse(time.DateOnly, n.Text)
	if err == nil && n.Kind == DateNode {
		*dst = day
		t.NoteValue(key, n.Text)
		return
	}
	found, right := n.Shown(), t.Key(key).Expected()
	if err == nil && n.Kind == StringNode {
		found += ", a text"
		right += ", without quotes"
	}
	t.WrongAt(n, key, found, right, "")
}
