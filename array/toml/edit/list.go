package edit

import (
	"fmt"
	"strings"

	"arrayodds/array/toml"
)

// Entry is a key with its value, which is TOML.
type Entry struct{ Key, Value string }

// Add returns the text with an item more at the end of a list of tables at the top.
func (t *Text) Add(list string, entries []Entry, style Style) ([]byte, error) {
	if err := t.whole(); err != nil {
		return nil, err
	}
	n := t.Root.Under[list]
	if n != nil && n.Kind != List {
		return nil, fmt.Errorf("%s is no list of tables", list)
	}
	if n != nil && n.To > 0 {
		return t.Apply(t.insertItem(n, entries)), nil
	}
	var b strings.Builder
	b.WriteString("[[" + toml.QuoteKey(list) + "]]\n")
	for _, e := range entries {
		b.WriteString(toml.QuoteKey(e.Key) + " = " + e.Value + "\n")
	}
	if n == nil {
		return t.Apply(t.insertSection(list, b.String(), style)), nil
	}
	all := t.spans(n.Items[len(n.Items)-1])
	return t.Apply(t.insertApart(all[len(all)-1].to, b.String())), nil
}

// insertItem puts a table into a list that is written [ ].
func (t *Text) insertItem(n *Node, entries []Entry) Splice {
	pairs := make([]string, len(entries))
	for i, e := range entries {
		pairs[i] = toml.QuoteKey(e.Key) + " = " + e.Value
	}
	item := "{ " + strings.Join(pairs, ", ") + " }"
	if len(n.Items) == 0 {
		return Splice{n.From, n.To, "[" + item + "]"}
	}
	last := n.Items[len(n.Items)-1].To
	return Splice{last, last, ", " + item}
}

// AddTable returns the text with an empty table under a header of its own, at the top
// or in an item.
func (t *Text) AddTable(steps []Step, style Style) ([]byte, error) {
	if err := t.whole(); err != nil {
		return nil, err
	}
	last := len(steps) - 1
	if last < 0 || steps[last].Key == nil {
		return nil, fmt.Errorf("no table to add")
	}
	in := t.Root.Find(steps[:last]...)
	switch {
	case t.Root.Find(steps...) != nil:
		return nil, fmt.Errorf("%s is there already", *steps[last].Key)
	case in == nil || in.Kind != Table:
		return nil, fmt.Errorf("there is no table to add %s to", *steps[last].Key)
	case in.made == byValue:
		return t.Apply(t.insertEntry(in, toml.QuoteKey(*steps[last].Key)+" = { }")), nil
	}
	return t.Apply(t.insertTable(in, *steps[last].Key, "", style)), nil
}

// item returns an item of a list of tables.
func (t *Text) item(list string, number int) (*Node, error) {
	if err := t.whole(); err != nil {
		return nil, err
	}
	n := t.Root.Find(Key(list), Item(number))
	if n == nil {
		return nil, fmt.Errorf("there is no item %d of %s", number+1, list)
	}
	return n, nil
}

// Copy returns the text with a copy of an item behind it, in which the value of a key,
// if it has that, is another.
func (t *Text) Copy(list string, number int, key, value string) ([]byte, error) {
	n, err := t.item(list, number)
	if err != nil {
		return nil, err
	}
	var change *Node
	if n.Kind == Table && n.Under[key] != nil && n.Under[key].To > 0 {
		change = n.Under[key]
	}
	copied := func(from, to int) string {
		if change == nil || change.From < from || change.To > to {
			return string(t.data[from:to])
		}
		return string(t.data[from:change.From]) + value + string(t.data[change.To:to])
	}
	if n.To > 0 {
		return t.Apply(Splice{n.To, n.To, ", " + copied(n.From, n.To)}), nil
	}
	var b strings.Builder
	all := t.spans(n)
	for _, s := range all {
		b.WriteString(copied(s.from, s.to))
		if !strings.HasSuffix(b.String(), "\n") {
			b.WriteString(t.end)
		}
	}
	return t.Apply(t.insertApart(all[len(all)-1].to, b.String())), nil
}

// Move returns the text with an item and the next one up or down in each other's place.
// The first stays where it is to go up, and so does the last to go down.
func (t *Text) Move(list string, number int, up bool) ([]byte, error) {
	if _, err := t.item(list, number); err != nil {
		return nil, err
	}
	first := number
	if up {
		first--
	}
	items := t.Root.Under[list].Items
	if first < 0 || first+1 >= len(items) {
		return t.Bytes(), nil
	}
	a, b := items[first], items[first+1]
	if a.To > 0 {
		return t.Apply(Splice{a.From, a.To, t.Source(b)}, Splice{b.From, b.To, t.Source(a)}), nil
	}
	above, below := t.spans(a), t.spans(b)
	splices := []Splice{{above[0].from, above[0].to, t.joined(below)}, {below[0].from, below[0].to, t.joined(above)}}
	for _, s := range append(above[1:], below[1:]...) {
		splices = append(splices, Splice{s.from, s.to, ""})
	}
	return t.Apply(splices...), nil
}

// joined returns the bytes of some spans one after the other, each with the end of its
// last line.
func (t *Text) joined(all []span) string {
	var b strings.Builder
	for _, s := range all {
		b.Write(t.data[s.from:s.to])
		if s.to > s.from && t.data[s.to-1] != '\n' {
			b.WriteString(t.end)
		}
	}
	return b.String()
}
