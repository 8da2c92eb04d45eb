package site

import (
	"fmt"
	"io"
	"slices"

	"arrayodds/array"
	"arrayodds/array/toml"
)

// Document is a site file that was read once and can be read again with other
// values in its tree, as package axis does. It does not change, so that several can
// read it at a time.
type Document struct {
	*toml.Document
	Ranges []*toml.UncertainRange // in the order of the file

	options options
	plan    *plan // nil until the file was read
	logo    *logo // nil until the file was read
	logs    *logs // nil where the file has no log
	file    *File
}

// Open reads a site file as [Read] does, and keeps it to be read again.
func Open(r io.Reader, name string, opts ...Option) (*Document, error) {
	return open(r, name, nil, opts...)
}

// open also puts down the keys that were asked for, where there are errors too.
func open(from io.Reader, name string, asked map[string]bool, opts ...Option) (*Document, error) {
	parsed, err := toml.Parse(from, name)
	if err != nil {
		return nil, err
	}
	parsed.Unlabelled = map[string]string{"cameras": "Cameras", "log": "Log"}
	d := &Document{Document: parsed}
	for _, o := range opts {
		o(&d.options)
	}
	d.Ranges = d.FindRanges(certain)
	r := &reader{Reader: &toml.Reader{Document: parsed, Schema: schema(), Asked: asked}, options: d.options}
	d.file = r.whole()
	r.StrayRanges(d.Ranges)
	if len(d.Errs) == 0 {
		d.plan, d.logo, d.logs = r.planned, &r.logo, r.logs
		if ends := d.tryEnds(); len(d.Errs) == 0 {
			d.updates(ends)
		}
	}
	if len(d.Errs) > 0 {
		return nil, d.Errs.Sorted()
	}
	return d, nil
}

// certain reports whether a place says nothing of the site itself that could be
// uncertain.
func certain(at []toml.Step) bool {
	return Descriptive(at[0].Key) || at[len(at)-1].Key == "label"
}

// Descriptive reports whether what stands under a key at the top of the file says
// nothing of the site itself that could be uncertain or varied, but how the site is
// to be simulated, shown and judged.
func Descriptive(key string) bool {
	return slices.Contains([]string{"name", "build", "currency", "document", "goal", "log", "options", "run", "sizing"}, key)
}

// File returns the site file as it stands, with the likely value of each range. It
// is not to be changed.
func (d *Document) File() *File { return d.file }

// Reading is how a tree is read again.
type Reading struct {
	Lenient bool // a choice that its drives or bays do not fit is no error
	Mute    bool // nothing is listed among the assumptions
	// Resize reports which choices get the fewest drives that hold the demand
	// ([array.Choice.Fewest]), by their index; nil: none.
	Resize func(choice int) bool
	// Watch is where a default is put down that is read, by the path of the key that
	// is not there; nil: nowhere.
	Watch map[string]*toml.ReadValue
}

// ReadTree reads another tree than the file's; [Document.Overlay] makes one. The
// errors are in the order in which they were found.
func (d *Document) ReadTree(root *toml.Node, how Reading) (*File, Errors) {
	again := *d.Document
	again.Root, again.Errs = root, nil
	r := &reader{Reader: &toml.Reader{Document: &again, Schema: schema(), Again: true, Mute: how.Mute, Watch: how.Watch}, how: how, options: d.options, plan: d.plan, before: d.logo, logsBefore: d.logs}
	f := r.whole()
	if len(again.Errs) > 0 {
		return nil, again.Errs
	}
	return f, nil
}

// Rebased returns the file as if another tree had stood in it; its ranges are those whose
// likely values are still in their places.
func (d *Document) Rebased(root *toml.Node) (*Document, Errors) {
	again, parsed := *d, *d.Document
	parsed.Root, parsed.Errs = root, nil
	again.Document, again.Ranges = &parsed, nil
	for _, u := range d.Ranges {
		if root.Find(u.At) == d.Root.Find(u.At) {
			again.Ranges = append(again.Ranges, u)
		}
	}
	f, errs := again.ReadTree(root, Reading{Lenient: true})
	again.file = f
	return &again, errs
}

// reader reads a tree as a site file.
type reader struct {
	*toml.Reader
	how       Reading
	options   options
	plan      *plan          // the cameras as they were read before; nil: they were not
	planned   *plan          // the cameras, once they are read
	scheduled string         // the path of the schedule that was read
	before    *logo          // the logo as it was read before; nil: it was not
	logo      logo           // the logo, once it is read
	unfit     map[int]string // choice → why it cannot be built
	logs      *logs          // the log, once it is read; nil where there is none

	logsBefore *logs // the same as it was read before; nil: it was not
}

// whole reads the tree with its assumptions.
func (r *reader) whole() *File {
	f := r.site(r.Table(r.Root, "", ""))
	for _, n := range r.SortedNotes() {
		f.Assumptions = append(f.Assumptions, Assumption{Path: n.Path, Text: n.Text, Default: n.Default})
	}
	return f
}

// tryEnds reads the file with each end of each range in its place: what spans
// several keys, such as a number of drives that the layout cannot take, is found
// only so. It returns the drives at the low and the high end of each range.
func (d *Document) tryEnds() (drives [][2][]array.Drive) {
	for _, u := range d.Ranges {
		var own [2][]array.Drive
		for i, end := range []struct {
			node *toml.Node
			read *toml.ReadValue
		}{{u.Low, &u.ReadLow}, {u.High, &u.ReadHigh}} {
			o := d.Overlay()
			o.Set(u.At, end.node.Copy().WatchedBy(end.read), u.Line)
			f, errs := d.ReadTree(o.Root, Reading{Mute: true})
			if f != nil {
				own[i] = f.Site.Drives
			}
			for _, e := range errs {
				e.Found += fmt.Sprintf(", where %s is %s", u.Path, end.node.Brief())
				d.Errs = append(d.Errs, e)
			}
		}
		drives = append(drives, own)
	}
	return drives
}

// Overlay makes a tree of the file with other values in it.
type Overlay struct{ *toml.Overlay }

// Overlay returns the tree of the file, to be changed.
func (d *Document) Overlay() Overlay {
	o := toml.NewOverlay(d.Root)
	o.Alone = wholeLaw
	return Overlay{o}
}

// Set puts a value in its place. What a choice inherits of a law or part is copied
// first, so that one number of it can be set. line is the place of tables that are
// not there yet.
func (o Overlay) Set(steps []toml.Step, v *toml.Node, line int) {
	if from := Inherited(steps); len(from) > 2 && o.Root.Find(steps[:4]) == nil {
		if n := o.Root.Find(from[:2]); n != nil && n.Kind == toml.TableNode {
			own := *n
			o.Overlay.Set(steps[:4], &own, line)
		}
	}
	o.Overlay.Set(steps, v, line)
}

// Inherited returns where a choice's own care or recorder takes a value from that
// it does not give; nil for any other place.
func Inherited(steps []toml.Step) []toml.Step {
	if len(steps) > 3 && steps[0].Key == "choices" && slices.Contains([]string{"care", "recorder"}, steps[2].Key) {
		return steps[2:]
	}
	return nil
}
