package axis

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/nearest"
	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// target is a place in the tree, whether there is anything yet or not.
type target struct {
	steps []toml.Step
	path  string   // for people
	label string   // of the drive, the choice or the camera group that it is in; else empty
	keys  []string // the steps as keys of a map, from the first alone to all of them
}

// target returns the place at the end of some steps.
func (s *Source) target(steps []toml.Step) target {
	t := target{steps: steps, path: s.doc.PathOf(steps)}
	key := ""
	for _, step := range steps {
		key += fmt.Sprintf("%s\x00%d\x00", step.Key, step.Item)
		t.keys = append(t.keys, key)
	}
	if len(steps) > 1 && steps[1].Key == "" && slices.Contains(lists, steps[0].Key) {
		if list := s.doc.Root.Find(steps[:1]); list != nil && steps[1].Item < len(list.Items) {
			t.label = s.doc.LabelOf(list.Items[steps[1].Item], steps[0].Key, steps[1].Item)
		}
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

// resolve finds what a path names. A key that the file leaves out is a place too,
// and the reader finds whether there is such a key.
func (s *Source) resolve(typed string) (where, *site.Error) {
	rest := strings.TrimSpace(typed)
	wrong := func(key, found, right, mean string) (where, *site.Error) {
		return where{}, &site.Error{Key: key, Found: found, Right: right, Mean: mean}
	}
	const example = "care.response or drives.*.life.afr"
	if rest == "" {
		return wrong("", "no path", "the path of a value, such as "+example, "")
	}
	top, rest, ok := segment(rest)
	if !ok {
		return wrong("", unit.Quote(typed), "keys with points between, such as "+example, "")
	}
	if site.Descriptive(top) {
		return wrong(top, "what says nothing of the site itself", "the path of a value, such as "+example, "")
	}
	w := where{path: toml.Join("", top), targets: []target{{steps: []toml.Step{{Key: top}}}}}
	if slices.Contains(lists, top) {
		var e *site.Error
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
	if last.Key == "label" {
		return wrong(w.path, "a label, which is only a name", "another key", "")
	}
	if len(w.targets[0].steps) == 1 && slices.Contains([]string{"care", "hazards", "recorder"}, top) || last.Key == "" && len(w.targets[0].steps) == 2 {
		return wrong(w.path, "a whole table", "a key of it: "+s.keysAt(w.targets[0].steps), "")
	}
	for i := range w.targets {
		w.targets[i] = s.target(w.targets[i].steps)
	}
	return w, nil
}

// labelled takes the label off a path that begins with a list's key.
func (s *Source) labelled(w where, top, rest string) (where, string, *site.Error) {
	n := s.doc.Root.Under[top]
	wrong := func(found, right, mean string) (where, string, *site.Error) {
		return w, "", &site.Error{Key: top, Found: found, Right: right, Mean: mean}
	}
	if n == nil || n.Kind == toml.ListNode && len(n.Items) == 0 {
		return wrong("no "+top+" in the file", "a path that begins with something else", "")
	}
	if n.Kind != toml.ListNode {
		return wrong(fmt.Sprintf("a schedule, %s, whose groups cannot be varied one by one", n.Shown()), "[["+top+"]] in the site file itself", "")
	}
	forms := map[string]int{} // how a label may be written → item, −1 where two are written so
	var labels []string
	for i, item := range n.Items {
		label := s.doc.LabelOf(item, top, i)
		labels = append(labels, label)
		for _, form := range slices.Compact([]string{label, toml.Join("", label), strconv.Quote(label)}) {
			if was, twice := forms[form]; twice && was != i {
				forms[form] = -1
				continue
			}
			forms[form] = i
		}
	}
	said := "one of " + toml.QuotedList(labels[:min(len(labels), 12)])
	if len(labels) > 12 {
		said += fmt.Sprintf(" and %d more", len(labels)-12)
	}
	said += ", or * for all"
	if rest == "" {
		return wrong("all of them at once", "a key of them, such as "+toml.Join(top+".*", firstKey[top]), "")
	}
	if rest == "*" || strings.HasPrefix(rest, "*.") {
		all := where{path: top + ".*"}
		for i := range n.Items {
			all.targets = append(all.targets, target{steps: []toml.Step{{Key: top}, {Item: i}}})
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
		if at := strings.LastIndex(rest, "."); at > 0 && nearest.Name(rest[:at], labels) != "" {
			label = rest[:at]
		} else if first, _, ok := segment(rest); ok {
			label = first
		}
		return wrong(unit.Quote(label)+", a label that none of the "+top+" has", said, nearest.Name(label, labels))
	}
	i := forms[best]
	one := where{path: toml.Join(top, labels[i]), targets: []target{{steps: []toml.Step{{Key: top}, {Item: i}}}}}
	return one, strings.TrimPrefix(rest[len(best):], "."), nil
}

// firstKey is a key of each list that is worth naming as an example.
var firstKey = map[string]string{"cameras": "bitrate", "drives": "life", "choices": "drives"}

// down goes one key further from every place.
func (s *Source) down(w *where, key string) *site.Error {
	var next []target
	for _, t := range w.targets {
		n := s.doc.Root.Find(t.steps)
		switch {
		case n != nil && n.Kind == toml.ListNode:
			i, err := strconv.Atoi(key)
			switch {
			case key == "*":
				for i := range n.Items {
					next = append(next, target{steps: further(t.steps, toml.Step{Item: i})})
				}
			case err != nil || i < 1 || i > len(n.Items):
				return &site.Error{Key: w.path, Found: unit.Quote(key), Right: fmt.Sprintf("1 to %d, or * for all", len(n.Items))}
			default:
				next = append(next, target{steps: further(t.steps, toml.Step{Item: i - 1})})
			}
		case n == nil || n.Kind == toml.TableNode || vacant(n):
			next = append(next, target{steps: further(t.steps, toml.Step{Key: key})})
		default:
			return &site.Error{Key: toml.Join(w.path, key), Found: fmt.Sprintf("%s, which stands under %s", n.Shown(), w.path), Right: w.path + " itself"}
		}
	}
	w.targets = next
	w.path = toml.Join(w.path, key)
	if key == "*" {
		w.path = strings.TrimSuffix(w.path, unit.Quote("*")) + "*"
	}
	return nil
}

func further(steps []toml.Step, one toml.Step) []toml.Step {
	return append(steps[:len(steps):len(steps)], one)
}

// vacant reports whether a value is a word for there being nothing, where a table
// could stand.
func vacant(n *toml.Node) bool { return n.IsNone() || n.Is("hot") }

// keysAt lists the keys of a table of the file.
func (s *Source) keysAt(steps []toml.Step) string {
	n := s.doc.Root.Find(steps)
	if n == nil || len(n.Keys) == 0 {
		return "the file gives none"
	}
	keys := slices.DeleteFunc(slices.Clone(n.Keys), func(key string) bool { return key == "label" })
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
