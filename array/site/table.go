package site

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"arrayodds/array/unit"
)

// reader carries what is found while the tree is read: errors and assumptions.
type reader struct {
	*document
	reading
	options options
	// scheduled is the path of the schedule that was read.
	scheduled string
	notes     []note
	asked     map[string]bool // every key that was asked for, labels left out: the keys there are; nil: not kept
	unfit     map[int]string  // choice → why it cannot be built
	planned   *plan           // the cameras, once they are read
}

// reading is how a tree is read.
type reading struct {
	again bool // it was read before: ranges are judged
	soft  bool // a choice that its drives or bays do not fit is no error
	mute  bool // nothing is listed among the assumptions
	// resize says which choices get the fewest drives that hold the demand; nil: none.
	resize func(choice int) bool
	watch  map[string]*seen // path of a key that is not there → its default
	plan   *plan            // the cameras as they were read before; nil: they were not
}

// note is an assumption with its place.
type note struct {
	Assumption
	offset int
	row    int // within a schedule, in the order of its cells; 0: in the file itself
}

// sortedNotes is the notes as the file has them, the defaults of a table after
// what it gives.
func (r *reader) sortedNotes() []note {
	sort.SliceStable(r.notes, func(i, j int) bool {
		a, b := r.notes[i], r.notes[j]
		switch {
		case a.offset != b.offset:
			return a.offset < b.offset
		case a.row != b.row:
			return a.row < b.row
		}
		return !a.Default && b.Default
	})
	return r.notes
}

func (r *reader) note(offset int, path, text string, byDefault bool) {
	if r.mute {
		return
	}
	r.notes = append(r.notes, note{Assumption{path, text, byDefault}, offset, 0})
}

// table is a table of the file while it is read. The methods that read a key
// (in scalar.go and quantity.go) make it known: what is in the file and was
// never asked for is reported by done. So the code that reads is the list of
// keys, and no second one has to agree with it.
type table struct {
	*reader
	node    *node
	path    string // for people, with labels: "drives.12 TB"
	kind    string // without labels: "drives"
	known   []string
	missing []string          // keys required and not there
	needs   map[string]string // what would be right for a missing key
	// keeps: a key that is not there leaves its target as it is, since the
	// table overrides another one.
	keeps bool
	// quiet: the values are told in one note by whoever reads the table.
	quiet bool
}

// in makes a table of a node. A nil node is a table that is not in the file:
// every key has its default, listed at the end.
func (r *reader) in(n *node, path, kind string) *table {
	if n == nil {
		n = newTable(byPath, 1, maxBytes)
	}
	return &table{reader: r, node: n, path: path, kind: kind, needs: map[string]string{}}
}

// fallback is what a key has where the file does not give it.
type fallback struct {
	required bool
	value    *node  // nil: the target is left as it is
	words    string // how the absence is told; empty: not at all
}

var required = fallback{required: true}

// absent leaves the target as it is and lists that in these words.
func absent(words string) fallback { return fallback{words: words} }

// standard is a default, given as it would be written in the file.
func standard(value any) fallback {
	n := &node{kind: decimal, text: fmt.Sprint(value)}
	switch value.(type) {
	case string:
		n.kind = text
	case bool:
		n.kind = truth
	case int:
		n.kind = whole
	}
	return fallback{value: n, words: n.text}
}

// seenBy is the fallback with its value watched.
func (f fallback) seenBy(s *seen) fallback {
	if f.value != nil {
		n := *f.value
		n.seen = s
		f.value = &n
	}
	return f
}

// ask finds the value of a key, or that of its fallback; nil where there is
// nothing to read. right says what a missing key should hold.
func (t *table) ask(key string, or fallback, right string) *node {
	t.known = append(t.known, key)
	if t.asked != nil {
		t.asked[path(t.kind, key)] = true
	}
	if n := t.node.under[key]; n != nil {
		if n.span != nil && !t.again { // several read again at a time
			n.span.asked = true
		}
		if n.kind == broken {
			return nil
		}
		return n
	}
	if t.keeps {
		return nil
	}
	if t.watch != nil && !or.required {
		if s := t.watch[path(t.path, key)]; s != nil {
			s.told, s.byDefault = or.words, true
			or = or.seenBy(s)
		}
	}
	switch {
	case or.required:
		t.missing = append(t.missing, key)
		t.needs[key] = right
	case or.words != "":
		t.note(t.lastOwn(), path(t.path, key), or.words, true)
	}
	return or.value
}

// given says whether the file has the key.
func (t *table) given(key string) bool { return t.node.under[key] != nil }

// line is the line of a key, or of the table where the key is not there.
func (t *table) line(key string) int {
	if n := t.node.under[key]; n != nil {
		return n.line
	}
	return t.node.line
}

// lastOwn is the offset after which the table's defaults are listed: that of
// its last value, before the tables inside it.
func (t *table) lastOwn() int {
	at := t.node.offset
	for _, n := range t.node.under {
		if (n.kind != tables || n.made == byValue) && (n.kind != list || n.made == byValue) {
			at = max(at, n.offset)
		}
	}
	return at
}

// tell lists a value of the file among the assumptions.
func (t *table) tell(key, text string) {
	n := t.node.under[key]
	if n == nil {
		return
	}
	if n.seen != nil {
		n.seen.told = text
	}
	if !t.quiet && !t.mute {
		t.note(n.offset, path(t.path, key), text, false)
	}
}

// wrong reports the value of a key.
func (t *table) wrong(key, found, right, mean string) {
	t.fail(t.line(key), path(t.path, key), found, right, mean)
}

// wrongAt reports a value at its own line, which in a list may be further down.
func (t *table) wrongAt(n *node, key, found, right, mean string) {
	line := n.line
	if line == 0 { // a default
		line = t.line(key)
	}
	t.fail(line, path(t.path, key), found, right, mean)
}

// child is the table under a key; nil where there is none.
func (t *table) child(key string) *table {
	n := t.ask(key, fallback{}, "")
	if n == nil {
		return nil
	}
	if n.kind == list && n.made == byRepeat {
		t.wrongAt(n, key, "[["+path(t.kind, key)+"]], which begins a list", "["+path(t.kind, key)+"], once", "")
		n = n.items[0]
	}
	if n.kind != tables {
		t.wrongAt(n, key, n.shown(), "a table", "")
		return nil
	}
	return t.in(n, path(t.path, key), path(t.kind, key))
}

// children are the tables of a list of tables, at most so many.
func (t *table) children(key string, most int) []*node {
	n := t.ask(key, fallback{}, "")
	if n == nil {
		return nil
	}
	if n.kind == tables {
		t.wrongAt(n, key, "["+key+"], a single table", "[["+key+"]], with double brackets: there may be several", "")
		return []*node{n}
	}
	if n.kind != list {
		t.wrongAt(n, key, n.shown(), "tables, each under [["+key+"]]", "")
		return nil
	}
	if len(n.items) > most {
		t.wrongAt(n, key, fmt.Sprintf("%d of them", len(n.items)), fmt.Sprintf("at most %d", most), "")
		return nil
	}
	if len(n.items) == 0 {
		return nil
	}
	var good []*node
	for _, item := range n.items {
		if item.kind != tables {
			t.wrongAt(item, key, item.shown(), "a table", "")
			continue
		}
		good = append(good, item)
	}
	return good
}

// atLeastOne reports a list of tables that is not there, or empty.
func (t *table) atLeastOne(key, what string) {
	n := t.node.under[key]
	if n == nil && !t.cut || n != nil && n.kind == list && len(n.items) == 0 {
		t.fail(t.line(key), key, "nothing", "at least one "+what+", under [["+key+"]]", "")
	}
}

// done reports the keys that nobody asked for, and those that are required and
// missing. A missing key that stands there misspelt is reported once, as that.
func (t *table) done() {
	misspelt := map[string]bool{}
	unknown := 0
	slices.Sort(t.known)
	for _, key := range t.node.keys {
		if slices.Contains(t.known, key) {
			continue
		}
		if unknown++; unknown > maxErrors { // only counted, since the list ends before it
			t.fail(t.node.under[key].line, "", "an unknown key", "none", "")
			continue
		}
		mean := nearest(key, t.known)
		misspelt[mean] = true
		t.fail(t.node.under[key].line, path(t.path, key), "an unknown key", "one of "+strings.Join(t.known, ", "), mean)
	}
	for _, key := range t.missing {
		if !misspelt[key] && !t.cut {
			t.fail(t.node.line, path(t.path, key), "nothing", t.needs[key], "")
		}
	}
}

// label reads the label of a table and makes it part of the path, so that
// errors and assumptions speak of the thing by its name.
func (t *table) label(or fallback, number int, dst *string) {
	t.path = fmt.Sprintf("%s %d", t.kind, number) // until the label is known
	if *dst != "" {
		t.path = path(t.kind, *dst)
	}
	n := t.ask("label", or, `a name of its own, such as "12 TB"`)
	if n == nil {
		return
	}
	name, ok := t.words("label", n)
	if !ok {
		return
	}
	*dst = name
	t.path = path(t.kind, name)
	t.tell("label", name)
}

// maxLabel bounds names, in characters.
const maxLabel = 200

// words reads a text that people will see: of one line, and not too long.
func (t *table) words(key string, n *node) (string, bool) {
	if n.kind != text {
		t.wrongAt(n, key, n.shown(), `a text in quotes`, "")
		return "", false
	}
	s := strings.TrimSpace(n.text)
	switch {
	case s == "":
		t.wrongAt(n, key, `""`, "a text", "")
	case len([]rune(s)) > maxLabel:
		t.wrongAt(n, key, fmt.Sprintf("%s, of %d characters", unit.Quote(s), len([]rune(s))), fmt.Sprintf("at most %d characters", maxLabel), "")
	case strings.ContainsFunc(s, unprintable):
		t.wrongAt(n, key, unit.Quote(s), "a text without control characters", "")
	default:
		return s, true
	}
	return "", false
}
