package form

import (
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/toml"
	"arrayodds/array/toml/edit"
)

// rename gives what names an item of a list by its label the new one: keys that take
// labels of the list, lists of them, and the paths that options set. Where the old or the
// new label is not the item's alone, nothing is renamed, for what is meant is not sure.
func (e editor) rename(after []byte, list string, number int, fresh string) []byte {
	items := e.text.Root.Under[list]
	if items == nil || number >= len(items.Items) {
		return after
	}
	old := labelIn(items.Items[number])
	var others []string
	for i, item := range items.Items {
		if i != number {
			others = append(others, labelIn(item))
		}
	}
	if old == "" || old == fresh || slices.Contains(others, old) || slices.Contains(others, fresh) {
		return after
	}
	t := edit.Parse(after)
	r := renaming{list, old, fresh, others, nil}
	for path, k := range e.named {
		table := t.Root.Under[parent(path)]
		if table == nil || table.Kind != edit.List {
			continue
		}
		for _, item := range table.Items {
			n := item.Under[k.Name()]
			switch {
			case n == nil:
			case k.LabelOf == list && n.Kind == edit.String:
				r.value(n)
			case k.Kind == toml.Labels && parent(path) == list:
				for _, label := range n.Items {
					r.value(label)
				}
			case k.Kind == toml.Settings:
				r.paths(n)
			}
		}
	}
	if len(r.splices) == 0 {
		return after
	}
	renamed := t.Apply(r.splices...)
	if !e.sound(renamed) {
		return after
	}
	return renamed
}

// renaming collects the places of an old label.
type renaming struct {
	list, old, fresh string
	others           []string
	splices          []edit.Splice
}

// value renames a label that is a value.
func (r *renaming) value(n *edit.Node) {
	if n.Kind == edit.String && strings.TrimSpace(n.Text) == r.old {
		r.splices = append(r.splices, edit.Splice{From: n.From, To: n.To, Text: toml.Quote(r.fresh)})
	}
}

// paths renames the label in the paths of a table: "drives.8 TB.price".
func (r *renaming) paths(n *edit.Node) {
	for _, path := range n.Keys {
		rest, ok := strings.CutPrefix(path, r.list+".")
		if !ok || slices.ContainsFunc(r.others, func(other string) bool { return len(other) > len(r.old) && strings.HasPrefix(rest, other+".") }) {
			continue
		}
		for _, form := range []string{r.old, toml.Join("", r.old), strconv.Quote(r.old)} {
			if after, ok := strings.CutPrefix(rest, form+"."); ok {
				from, to := n.Under[path].KeyAt()
				if to > from {
					r.splices = append(r.splices, edit.Splice{From: from, To: to, Text: toml.Quote(toml.Join(r.list, r.fresh) + "." + after)})
				}
				break
			}
		}
	}
}
