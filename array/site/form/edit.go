package form

import (
	"bytes"
	"fmt"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/toml/edit"
)

// Change is one change of a site file.
type Change struct {
	Op    Op     `json:"op"`
	Path  string `json:"path"`
	Value string `json:"value,omitempty"`
}

// Op is what a change does.
type Op string

// The changes. Set puts what is typed under a key; blank, it is Remove. Remove takes a
// key, a table or an item away. Add puts an item in a list, or makes a table that is
// not there; Copy copies an item, and Move changes its place with that above or below:
// Up or Down.
const (
	Set    Op = "set"
	Remove Op = "remove"
	Add    Op = "add"
	Copy   Op = "copy"
	Move   Op = "move"
)

// Up and Down are the values of Move.
const (
	Up   = "up"
	Down = "down"
)

// Edit returns the text after a change, all that the change does not touch being as it
// was. An error says why there is no such change; what is typed is never one, for the
// reader says what is wrong with that.
func Edit(text []byte, c Change) ([]byte, error) {
	way, err := steps(c.Path)
	if err != nil {
		return nil, err
	}
	e := editor{edit.Parse(text), keys()}
	var after []byte
	switch c.Op {
	case Set:
		return e.set(way, c.Value)
	case Remove:
		after, err = e.text.Remove(way)
	case Add:
		after, err = e.add(way)
	case Copy:
		after, err = e.copy(way)
	case Move:
		after, err = e.move(way, c.Value)
	default:
		err = fmt.Errorf("no change is called %.80q", c.Op)
	}
	if err == nil && !e.sound(after) {
		err = fmt.Errorf("%s of %.80q would break the file", c.Op, c.Path)
	}
	if err != nil {
		return nil, err
	}
	return after, nil
}

// editor changes one text.
type editor struct {
	text *edit.Text
	*keyTable
}

// style returns where new keys go: in the order of the table of keys, and sections under
// headers.
func (e editor) style() edit.Style {
	return edit.Style{
		Order:  func(table string) []string { return e.order[table] },
		Headed: func(table string) bool { k := e.named[table]; return k != nil && section(k) },
	}
}

// sound reports whether a text has no more mistakes of syntax than that before it, and
// is within the bounds of a file.
func (e editor) sound(after []byte) bool {
	was, err := toml.Parse(bytes.NewReader(e.text.Bytes()), "")
	is, err2 := toml.Parse(bytes.NewReader(after), "")
	return err == nil && err2 == nil && len(is.Errs) <= len(was.Errs) && (was.Cut || !is.Cut)
}

// set puts what is typed under a key.
func (e editor) set(way []edit.Step, typed string) ([]byte, error) {
	if strings.TrimSpace(typed) == "" {
		return e.text.Remove(way)
	}
	k := e.lookup(way)
	after, err := e.text.Set(way, written(k, typed), e.style())
	if err == nil && !e.sound(after) { // what is typed fits nothing here as it is
		after, err = e.text.Set(way, toml.Quote(typed), e.style())
	}
	if err == nil && !e.sound(after) {
		err = fmt.Errorf("this would break the file")
	}
	if err != nil {
		return nil, err
	}
	if k != nil && len(way) == 3 && way[1].Key == nil && k.Name() == "label" {
		after = e.rename(after, *way[0].Key, way[1].Item, strings.TrimSpace(typed))
	}
	return after, nil
}

// add puts an item in a list or makes a table, with all that is required of it.
func (e editor) add(way []edit.Step) ([]byte, error) {
	k := e.named[keyPath(way)]
	switch {
	case k == nil || way[len(way)-1].Key == nil || k.Kind != toml.SubTable && k.Kind != toml.Tables:
		return nil, fmt.Errorf("nothing can be added there")
	case k.Kind == toml.Tables:
		return e.addItem(k)
	case !section(k) && e.text.Root.Find(way...) != nil:
		return nil, fmt.Errorf("%s is there already", k.Name())
	case !section(k):
		return e.text.Set(way, e.said[k.Path].example, e.style())
	}
	after, err := e.text.AddTable(way, e.style())
	for _, own := range e.in[k.Path] {
		if err == nil && own.Required {
			after, err = edit.Parse(after).Set(append(way[:len(way):len(way)], edit.Key(own.Name())), e.said[own.Path].example, e.style())
		}
	}
	return after, err
}

// addItem puts an item at the end of a list.
func (e editor) addItem(k *site.Key) ([]byte, error) {
	n := e.text.Root.Under[k.Name()]
	count := 0
	if n != nil {
		count = len(n.Items)
	}
	switch {
	case n != nil && n.Kind != edit.List:
		return nil, fmt.Errorf("%s is %.80s, which stands for all of them: take it away first", k.Name(), e.text.Written(n))
	case count >= k.Most:
		return nil, fmt.Errorf("there are at most %d %s", k.Most, k.Name())
	}
	entries := []edit.Entry{{Key: "label", Value: toml.Quote(free(labelsOf(n), count+1, func(i int) string { return fmt.Sprintf("%s %d", capital(k.Item), i) }))}}
	for _, own := range e.in[k.Path] {
		if !own.Required || own.Name() == "label" || len(own.Unless) > 0 {
			continue
		}
		value := e.said[own.Path].example
		if own.LabelOf != "" {
			labels := labelsOf(e.text.Root.Under[own.LabelOf])
			if len(labels) == 0 {
				continue
			}
			value = toml.Quote(labels[0])
		}
		entries = append(entries, edit.Entry{Key: own.Name(), Value: value})
	}
	return e.text.Add(k.Name(), entries, e.style())
}

// free returns the first name that is not taken, counted from a number on.
func free(taken []string, from int, name func(int) string) string {
	is := map[string]bool{}
	for _, t := range taken {
		is[t] = true
	}
	for i := from; ; i++ {
		if n := name(i); !is[n] {
			return n
		}
	}
}

// item returns the list and the number of an item that steps lead to.
func (e editor) item(way []edit.Step) (list string, number int, err error) {
	if len(way) != 2 || way[0].Key == nil || way[1].Key != nil || e.named[*way[0].Key] == nil || e.named[*way[0].Key].Kind != toml.Tables {
		return "", 0, fmt.Errorf("that is no item of a list")
	}
	return *way[0].Key, way[1].Item, nil
}

// copy puts a copy of an item behind it, with a label of its own.
func (e editor) copy(way []edit.Step) ([]byte, error) {
	list, number, err := e.item(way)
	if err != nil {
		return nil, err
	}
	n := e.text.Root.Under[list]
	if n != nil && len(n.Items) >= e.named[list].Most {
		return nil, fmt.Errorf("there are at most %d %s", e.named[list].Most, list)
	}
	label := labelIn(e.text.Root.Find(way...))
	const suffix = " copy"
	if at := strings.LastIndex(label, suffix); at > 0 && strings.Trim(label[at+len(suffix):], " 0123456789") == "" {
		label = label[:at]
	}
	if runes := []rune(label); len(runes) > toml.MaxText-len(" copy 1000") {
		label = string(runes[:toml.MaxText-len(" copy 1000")])
	}
	label = free(labelsOf(n), 1, func(i int) string {
		if i == 1 {
			return label + suffix
		}
		return fmt.Sprintf("%s%s %d", label, suffix, i)
	})
	return e.text.Copy(list, number, "label", toml.Quote(label))
}

// move changes the places of an item and its neighbour.
func (e editor) move(way []edit.Step, where string) ([]byte, error) {
	list, number, err := e.item(way)
	if err == nil && where != Up && where != Down {
		err = fmt.Errorf("%.80q is neither %s nor %s", where, Up, Down)
	}
	if err != nil {
		return nil, err
	}
	return e.text.Move(list, number, where == Up)
}
