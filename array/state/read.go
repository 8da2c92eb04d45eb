package state

import (
	"fmt"
	"io"
	"math"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// File is a state file that was read.
type File struct {
	Choice int // by its index in the site's choices
	State  array.State
	Notes  []toml.Note // its values, and the defaults that stand for others
}

// Read reads a state file of an array that is one of the choices of a site. name is what
// errors call the file. choice is the label of the choice where that is asked for
// elsewhere; else the file has it, or the site has one choice only.
//
// Where anything is wrong with what is written, the error is of type [toml.Errors] and
// lists all of it; any other error is of the reader.
func Read(from io.Reader, name string, choices []array.Choice, choice string) (*File, error) {
	d, err := Open(from, name)
	if err != nil {
		return nil, err
	}
	return d.read(choices, choice, false)
}

// Document is a state file that was opened: its site can be asked for before it is read.
type Document struct{ parsed *toml.Document }

// Open opens a state file. What is wrong with its syntax is said when it is read; the
// error is of the reader.
func Open(from io.Reader, name string) (*Document, error) {
	parsed, err := toml.Parse(from, name)
	return &Document{parsed}, err
}

// Site returns where the file says that its site file is. place is that key, for errors
// about it, with what was found; given reports whether the file has it. The path is empty
// where what stands there is no text.
func (d *Document) Site() (path string, place toml.Error, given bool) {
	place = toml.Error{File: d.parsed.Name, Line: 1, Key: "site", Found: "nothing"}
	n := d.parsed.Root.Under["site"]
	if n == nil {
		return "", place, false
	}
	place.Line, place.Found = n.Line, n.Shown()
	if n.Kind == toml.StringNode {
		path = n.Text
	}
	return path, place, true
}

// Mistakes returns what is wrong with the file as far as can be told where its site is not
// known.
func (d *Document) Mistakes() toml.Errors {
	r := &toml.Reader{Document: d.parsed, Schema: schema(), Mute: true}
	t := r.Table(d.parsed.Root, "", "")
	label := ""
	t.Text("choice", &label)
	readArray(t, &File{Choice: -1}, nil)
	return d.parsed.Errs.Sorted()
}

// Broken reports whether the text could not be read to its end, or not on every line, so
// that what seems to be missing may be there.
func (d *Document) Broken() bool { return len(d.parsed.Errs) > 0 }

// State reads the file as [Read] does, of the choice that it names, without its notes.
func (d *Document) State(choices []array.Choice) (*File, error) { return d.read(choices, "", true) }

func (d *Document) read(choices []array.Choice, choice string, mute bool) (*File, error) {
	r := &toml.Reader{Document: d.parsed, Schema: schema(), Mute: mute}
	f := read(r.Table(d.parsed.Root, "", ""), choices, choice)
	if len(d.parsed.Errs) > 0 {
		return nil, d.parsed.Errs.Sorted()
	}
	f.Notes = r.SortedNotes()
	return f, nil
}

func read(t *toml.Table, choices []array.Choice, choice string) *File {
	f := &File{Choice: readChoice(t, choices, choice)}
	readArray(t, f, choices)
	return f
}

// readArray reads all but the choice.
func readArray(t *toml.Table, f *File, choices []array.Choice) {
	nan := math.NaN()
	site := "" // whoever reads a folder has asked for it before
	t.Text("site", &site)
	s := &f.State
	s.HourOfWeek, s.SpareIn, s.TechnicianIn, s.Scrubbed = nan, nan, nan, nan
	readWhen(t, &s.HourOfWeek)
	age := nan
	t.Quantity("age", &age)
	free := -1
	t.Count("hot_spares", &free)
	t.Quantity("spare_in", &s.SpareIn)
	t.Quantity("technician_in", &s.TechnicianIn)
	t.Quantity("drive_in", &s.DriveIn)
	t.Quantity("scrubbed", &s.Scrubbed)
	if f.Choice < 0 {
		readDrives(t, nil, nil)
		t.Done()
		return
	}
	c := &choices[f.Choice]
	for range c.Drives {
		s.Drives = append(s.Drives, array.DriveState{Age: age, DownFor: nan, RebuiltFor: nan})
	}
	if s.Spares = free; free < 0 {
		s.Spares = c.HotSpares
	}
	if free > c.HotSpares {
		t.Wrong("hot_spares", fmt.Sprint(free), fmt.Sprintf("at most %d, which is what %s has", c.HotSpares, unit.Quote(c.Label)), "")
	}
	readDrives(t, c, s.Drives)
	if oldest := oldest(s.Drives); known(s.Scrubbed) && s.Scrubbed > oldest {
		t.Wrong("scrubbed", t.Written("scrubbed", ""), "at most the age of the oldest drive, "+unit.FormatHours(oldest), "")
	}
	t.Done()
}

func oldest(drives []array.DriveState) (age float64) {
	for i := range drives {
		age = max(age, drives[i].Age)
	}
	return age
}

// readChoice returns the index of the choice; −1 where it is not known.
func readChoice(t *toml.Table, choices []array.Choice, asked string) int {
	label := ""
	given := t.Text("choice", &label)
	if asked != "" {
		label = asked
	}
	var labels []string
	for i, c := range choices {
		if c.Label == label {
			return i
		}
		labels = append(labels, c.Label)
	}
	switch {
	case asked != "": // said by who asked
	case given:
		t.Wrong("choice", unit.Quote(label), "one of "+toml.QuotedList(labels), nearest.Name(label, labels))
	case t.Given("choice"): // reported
	case len(choices) == 1:
		return 0
	default:
		t.Wrong("choice", "nothing", "one of "+toml.QuotedList(labels), "")
	}
	return -1
}
