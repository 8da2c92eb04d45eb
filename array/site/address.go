package site

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/unit"
)

// step is one step down the tree: to a key of a table or, where that is empty,
// to an item of a list, from 0.
type step struct {
	key  string
	item int
}

// target is a place in the tree, whether there is anything yet or not.
type target struct {
	steps []step
	path  string   // for people
	keys  []string // the steps as keys of a map, from the first alone to all of them
}

// named gives a target its path and keys.
func (d *document) named(steps []step) target {
	t := target{steps: steps, path: d.pathOf(steps)}
	key := ""
	for _, s := range steps {
		key += fmt.Sprintf("%s\x00%d\x00", s.key, s.item)
		t.keys = append(t.keys, key)
	}
	return t
}

// where is what a path names.
type where struct {
	path    string
	targets []target // one or more
}

// lists are the keys at the top under which things stand that have labels.
var lists = []string{"cameras", "drives", "choices"}

// find is the node at the end of some steps; nil where there is none.
func (n *node) find(steps []step) *node {
	for _, s := range steps {
		switch {
		case n == nil:
			return nil
		case s.key != "":
			n = n.under[s.key]
		case n.kind != list || s.item >= len(n.items):
			return nil
		default:
			n = n.items[s.item]
		}
	}
	return n
}

// pathOf is how errors and assumptions name a place: things by their labels.
func (d *document) pathOf(steps []step) string {
	said := ""
	n := d.root
	for i, s := range steps {
		switch {
		case s.key != "":
			said = path(said, s.key)
		case i == 1 && n != nil && s.item < len(n.items):
			said = path(said, labelOf(n.items[s.item], steps[0].key, s.item))
		default:
			said = path(said, strconv.Itoa(s.item+1))
		}
		n = n.find(steps[i : i+1])
	}
	return said
}

// labelOf is the label of an item, or what stands for it.
func labelOf(n *node, kind string, item int) string {
	if l := n.find([]step{{key: "label"}}); l != nil && l.kind == text {
		return strings.TrimSpace(l.text)
	}
	if kind == "cameras" {
		return fmt.Sprintf("Cameras %d", item+1)
	}
	return fmt.Sprintf("%s %d", kind, item+1)
}

// inherited is where a choice's own care or recorder takes a value from that it
// does not give.
func inherited(steps []step) []step {
	if len(steps) > 3 && steps[0].key == "choices" && (steps[2].key == "care" || steps[2].key == "recorder") {
		return steps[2:]
	}
	return nil
}

// resolve finds what a path names. A key that the file leaves out is a place too,
// and the reader says whether there is such a key.
func (s *Source) resolve(typed string) (where, *Error) {
	rest := strings.TrimSpace(typed)
	wrong := func(key, found, right, mean string) (where, *Error) {
		return where{}, &Error{Key: key, Found: found, Right: right, Mean: mean}
	}
	const example = "care.response or drives.*.life.afr"
	if rest == "" {
		return wrong("", "no path", "the path of a value, such as "+example, "")
	}
	top, rest, ok := segment(rest)
	if !ok {
		return wrong("", unit.Quote(typed), "keys with points between, such as "+example, "")
	}
	if top == "run" || top == "name" {
		return wrong(top, "what says nothing of the site itself", "the path of a value, such as "+example, "")
	}
	w := where{path: path("", top), targets: []target{{steps: []step{{key: top}}}}}
	if slices.Contains(lists, top) {
		var e *Error
		if w, rest, e = s.labelled(w, top, rest); e != nil {
			return where{}, e
		}
	}
	for rest != "" {
		var key string
		if key, rest, ok = segment(rest); !ok {
			return wrong(w.path, unit.Quote(typed), "keys with points between, such as "+example, "")
		}
		if e := s.down(&w, key); e != nil {
			return where{}, e
		}
	}
	last := w.targets[0].steps[len(w.targets[0].steps)-1]
	if last.key == "label" {
		return wrong(w.path, "a label, which is only a name", "another key", "")
	}
	if len(w.targets[0].steps) == 1 && slices.Contains([]string{"care", "hazards", "recorder"}, top) || last.key == "" && len(w.targets[0].steps) == 2 {
		return wrong(w.path, "a whole table", "a key of it: "+s.keysAt(w.targets[0].steps), "")
	}
	for i := range w.targets {
		w.targets[i] = s.document.named(w.targets[i].steps)
	}
	return w, nil
}

// labelled takes the label off a path that begins with a list's key.
func (s *Source) labelled(w where, top, rest string) (where, string, *Error) {
	n := s.document.root.under[top]
	wrong := func(found, right, mean string) (where, string, *Error) {
		return w, "", &Error{Key: top, Found: found, Right: right, Mean: mean}
	}
	if n == nil || n.kind == list && len(n.items) == 0 {
		return wrong("no "+top+" in the file", "a path that begins with something else", "")
	}
	if n.kind != list {
		return wrong(fmt.Sprintf("a schedule, %s, whose groups cannot be varied one by one", n.shown()), "[["+top+"]] in the site file itself", "")
	}
	forms := map[string]int{} // how a label may be written → item, −1 where two are written so
	var labels []string
	for i, item := range n.items {
		label := labelOf(item, top, i)
		labels = append(labels, label)
		for _, form := range slices.Compact([]string{label, path("", label), strconv.Quote(label)}) {
			if was, twice := forms[form]; twice && was != i {
				forms[form] = -1
				continue
			}
			forms[form] = i
		}
	}
	said := "one of " + quotedList(labels[:min(len(labels), 12)])
	if len(labels) > 12 {
		said += fmt.Sprintf(" and %d more", len(labels)-12)
	}
	said += ", or * for all"
	if rest == "" {
		return wrong("all of them at once", "a key of them, such as "+path(top+".*", firstKey[top]), "")
	}
	if rest == "*" || strings.HasPrefix(rest, "*.") {
		all := where{path: top + ".*"}
		for i := range n.items {
			all.targets = append(all.targets, target{steps: []step{{key: top}, {item: i}}})
		}
		return all, strings.TrimPrefix(rest[1:], "."), nil
	}
	best := ""
	for form, i := range forms {
		if i >= 0 && len(form) > len(best) && (rest == form || strings.HasPrefix(rest, form+".")) {
			best = form
		}
	}
	if best == "" {
		label := rest
		if at := strings.LastIndex(rest, "."); at > 0 && nearest(rest[:at], labels) != "" {
			label = rest[:at]
		} else if first, _, ok := segment(rest); ok {
			label = first
		}
		return wrong(unit.Quote(label)+", a label that none of the "+top+" has", said, nearest(label, labels))
	}
	i := forms[best]
	one := where{path: path(top, labels[i]), targets: []target{{steps: []step{{key: top}, {item: i}}}}}
	return one, strings.TrimPrefix(rest[len(best):], "."), nil
}

// firstKey is a key of each list that is worth naming as an example.
var firstKey = map[string]string{"cameras": "bitrate", "drives": "life", "choices": "drives"}

// down goes one key further from every place.
func (s *Source) down(w *where, key string) *Error {
	var next []target
	for _, t := range w.targets {
		n := s.document.root.find(t.steps)
		switch {
		case n != nil && n.kind == list:
			i, err := strconv.Atoi(key)
			switch {
			case key == "*":
				for i := range n.items {
					next = append(next, target{steps: further(t.steps, step{item: i})})
				}
			case err != nil || i < 1 || i > len(n.items):
				return &Error{Key: w.path, Found: unit.Quote(key), Right: fmt.Sprintf("1 to %d, or * for all", len(n.items))}
			default:
				next = append(next, target{steps: further(t.steps, step{item: i - 1})})
			}
		case n == nil || n.kind == tables || n.vacant():
			next = append(next, target{steps: further(t.steps, step{key: key})})
		default:
			return &Error{Key: path(w.path, key), Found: fmt.Sprintf("%s, which stands under %s", n.shown(), w.path), Right: w.path + " itself"}
		}
	}
	w.targets = next
	w.path = path(w.path, key)
	if key == "*" {
		w.path = strings.TrimSuffix(w.path, unit.Quote("*")) + "*"
	}
	return nil
}

func further(steps []step, one step) []step {
	return append(steps[:len(steps):len(steps)], one)
}

// vacant says whether a value is a word for there being nothing, where a table
// could stand.
func (n *node) vacant() bool {
	return isNone(n) || n.kind == text && strings.EqualFold(strings.TrimSpace(n.text), "hot")
}

// keysAt lists the keys of a table of the file.
func (s *Source) keysAt(steps []step) string {
	n := s.document.root.find(steps)
	if n == nil || len(n.keys) == 0 {
		return "the file gives none"
	}
	keys := slices.DeleteFunc(slices.Clone(n.keys), func(key string) bool { return key == "label" })
	return strings.Join(keys[:min(len(keys), 12)], ", ")
}

// segment takes the first key off a path. A key may be quoted.
func segment(of string) (key, rest string, ok bool) {
	if strings.HasPrefix(of, `"`) {
		prefix, err := strconv.QuotedPrefix(of)
		if err != nil {
			return "", "", false
		}
		key, _ = strconv.Unquote(prefix)
		if rest = of[len(prefix):]; rest == "" {
			return key, "", key != ""
		}
		rest, ok = strings.CutPrefix(rest, ".")
		return key, rest, ok && rest != "" && key != ""
	}
	key, rest, more := strings.Cut(of, ".")
	key = strings.TrimSpace(key)
	return key, rest, key != "" && !(more && rest == "")
}
