package toml

import "sort"

// Reader carries what is found while a tree is read: errors, in its document, and
// notes.
type Reader struct {
	*Document
	Schema *Schema
	Again  bool            // the tree was read before: ranges are judged
	Mute   bool            // no notes are kept
	Asked  map[string]bool // every key that was asked for, labels left out; nil: not kept
	// Watch is where a default is put down that is read, by the path of the key that
	// is not there; nil: nowhere.
	Watch map[string]*ReadValue
	Notes []Note
}

// Note is a value as the file or its default has it, in words.
type Note struct {
	Path    string // "drives.12 TB.life"; things go by their labels
	Text    string // the value, as one would say it
	Default bool   // the file does not give it

	offset int
	row    int // within a spreadsheet, in the order of its cells; 0: in the file itself
}

// Note keeps a note, which stands at an offset of the file.
func (r *Reader) Note(offset int, path, text string, byDefault bool) {
	if r.Mute {
		return
	}
	r.Notes = append(r.Notes, Note{Path: path, Text: text, Default: byDefault, offset: offset})
}

// NoteRows keeps the notes on a spreadsheet that is named at an offset of the
// file.
func (r *Reader) NoteRows(offset int, notes []Note) {
	if r.Mute {
		return
	}
	for i, n := range notes {
		n.offset, n.row = offset, i+1
		r.Notes = append(r.Notes, n)
	}
}

// SortedNotes returns the notes in the order of the file, the defaults of a table
// after what it gives.
func (r *Reader) SortedNotes() []Note {
	sort.SliceStable(r.Notes, func(i, j int) bool {
		a, b := r.Notes[i], r.Notes[j]
		switch {
		case a.offset != b.offset:
			return a.offset < b.offset
		case a.row != b.row:
			return a.row < b.row
		}
		return !a.Default && b.Default
	})
	return r.Notes
}

// Table returns a table of the tree to be read: path names it for people, kind is
// the path without labels. A nil node is a table that is not in the file: every key
// has its default, listed at the end.
func (r *Reader) Table(n *Node, path, kind string) *Table {
	if n == nil {
		n = newTable(byPath, 1, MaxBytes)
	}
	return &Table{Reader: r, Node: n, Path: path, Kind: kind}
}
