package evidence

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	slash "path"
	"slices"
	"strings"
	"time"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/record"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// Bounds of a record that a site file names.
const (
	maxBytes  = 4 << 20
	maxDrives = 20_000

	mostWatched = 50 * unit.HoursPerYear
)

// earliest is the first day that a log may name: there were no such drives before.
var earliest = time.Date(1950, 1, 1, 0, 0, 0, 0, time.UTC)

// date reads a day of a log; the zero time where none is given, or it is wrong.
func date(t *toml.Table, key string) (day time.Time) {
	before := len(t.Errs)
	t.Date(key, &day)
	if t.Given(key) && len(t.Errs) == before && day.Before(earliest) {
		t.Wrong(key, day.Format(time.DateOnly), "a day from "+earliest.Format(time.DateOnly)+" on", "")
		return time.Time{}
	}
	return day
}

// Entry is one [[log]] table.
type Entry struct {
	Drive     string // label of the model
	Failures  float64
	DriveDays float64
	Fleet     *array.Fleet // where it tells of each drive
	Ageless   bool         // it does not tell how old the drives were
	Notes     []string     // what the reader of its record had to presume

	spans []span
}

// span is drives that were watched between two ages: drive-hours, spread evenly.
type span struct{ hours, from, to float64 }

// Expected returns how many failures a law expects of the drives of an entry.
func (e *Entry) Expected(l array.Life) (sum float64) {
	if f := e.Fleet; f != nil {
		for _, d := range f.Drives {
			sum += l.Expected(d.Entered, d.Hours)
		}
	}
	for _, s := range e.spans {
		sum += l.Expected(s.from, s.to) * s.hours / (s.to - s.from)
	}
	return sum
}

// Open returns the bytes of a file beside the site file, at most one more than so many, or
// why there are none.
type Open func(name string, most int64) (data []byte, why string)

// Read reads the table of an entry, of which the drive was read already. It reports
// whether nothing is wrong with it.
func (e *Entry) Read(t *toml.Table, open Open) bool {
	before := len(t.Errs)
	misspelt := slices.ContainsFunc(t.Node.Keys, func(key string) bool { return nearest.Name(key, []string{"failures"}) != "" })
	switch {
	case t.Given("file"):
		if n := t.Ask("file"); n != nil {
			e.readFile(t, n, open)
		}
	case t.Given("failures") || misspelt:
		t.Know("file")
		e.readCounts(t)
	default: // one error and not one for each figure
		t.Fail(t.Node.Line, t.Path, "neither file nor failures", "one of the two", "")
		t.Know(t.Key("file").Excludes...)
		t.Know("file", "model", "until")
	}
	return len(t.Errs) == before
}

// readFile reads the record that an entry names.
func (e *Entry) readFile(t *toml.Table, n *toml.Node, open Open) {
	model := ""
	named := t.Text("model", &model)
	dated := t.Given("until")
	until := date(t, "until")
	for _, other := range t.Key("file").Excludes { // none of which was asked for
		if t.Given(other) {
			t.Know(other)
			t.Wrong(other, "it beside file", "one of the two", "")
		}
	}
	name, ok := t.Line("file", n)
	if !ok {
		return
	}
	data, why := open(name, maxBytes)
	wrong := func(why, right string) { t.WrongAt(n, "file", unit.Quote(name)+why, right, "") }
	switch {
	case why != "":
		wrong(why, fileRight)
		return
	case len(data) > maxBytes:
		wrong(", a larger file", "at most 4 MiB")
		return
	case bytes.HasPrefix(data, []byte("PK")) || bytes.HasPrefix(data, []byte("\x1f\x8b")):
		wrong(", which is packed, or a workbook", fileRight)
		return
	}
	name = slash.Clean(name)
	got, err := record.Read(context.Background(), bytes.NewReader(data), name, record.Options{Until: until, UntilUnknown: dated && until.IsZero()})
	if faults, ok := errors.AsType[record.Errors](err); ok {
		for _, f := range faults {
			t.Errs = append(t.Errs, fromRecord(t, n, f))
		}
		return
	}
	if err != nil {
		wrong(", which cannot be read", fileRight)
		return
	}
	f := e.pick(t, n, got.Fleets, name, model, named)
	if f == nil {
		return
	}
	if len(f.Drives) > maxDrives {
		wrong(fmt.Sprintf(", with %s drives", unit.Digits(float64(len(f.Drives)), 15)), "a record of at most 20 000 drives")
		return
	}
	e.take(f)
	for _, note := range f.Notes {
		e.Notes = append(e.Notes, name+": "+note)
	}
}

// fromRecord returns an error of a record as one of the site file that names it.
func fromRecord(t *toml.Table, n *toml.Node, f record.Error) toml.Error {
	place := f.File
	if f.Line > 0 {
		place += fmt.Sprintf(":%d", f.Line)
	}
	until := strings.NewReplacer("the option --until", "until", "--until", "until")
	e := toml.Error{File: t.Name, Line: n.Line, Place: place, Key: until.Replace(f.Column), Found: until.Replace(f.Found), Right: until.Replace(f.Right)}
	if f.More > 0 {
		e.Right += fmt.Sprintf(" ... and %s like it", unit.Count(f.More, "more row", "more rows"))
	}
	return e
}

// pick returns the fleet of a record that an entry is of; nil where none is.
func (e *Entry) pick(t *toml.Table, n *toml.Node, fleets []array.Fleet, name, model string, named bool) *array.Fleet {
	var labels []string
	for i := range fleets {
		labels = append(labels, fleets[i].Label)
		if fleets[i].Label == model || !named && fleets[i].Label == e.Drive {
			return &fleets[i]
		}
	}
	const most = 12
	right := "one of them: " + toml.QuotedList(labels[:min(len(labels), most)])
	switch {
	case named:
		t.Wrong("model", unit.Quote(model)+", which is not in "+unit.Quote(name), right, nearest.Name(model, labels))
	case len(fleets) == 1:
		return &fleets[0]
	default:
		t.WrongAt(n, "file", fmt.Sprintf("%d models in %s and none called %s", len(fleets), unit.Quote(name), unit.Quote(e.Drive)), "model beside it, "+right, "")
	}
	return nil
}

// take takes what a record says of a fleet.
func (e *Entry) take(f *array.Fleet) {
	if f.Drives != nil {
		e.Fleet = f
		for _, d := range f.Drives {
			e.DriveDays += (d.Hours - d.Entered) / 24
			if d.Failed {
				e.Failures++
			}
		}
		return
	}
	for _, c := range f.Sums {
		e.Failures += c.Failures
		e.DriveDays += c.DriveDays
		to := c.To * unit.HoursPerYear
		if c.To == 0 {
			e.Ageless, to = true, c.DriveDays*24
		}
		e.spans = append(e.spans, span{c.DriveDays * 24, c.From * unit.HoursPerYear, to})
	}
}

// readCounts reads an entry that gives figures.
func (e *Entry) readCounts(t *toml.Table) {
	failures, drives := int64(-1), 0
	var days, age float64
	t.Know("model")
	if t.Given("model") {
		t.Wrong("model", "it without file", "it beside the file that it is in", "")
	}
	t.Integer("failures", &failures)
	how := []string{"drive_days", "drives", "since", "until"}
	if !slices.ContainsFunc(how, t.Given) { // one error and not one for each
		t.Fail(t.Node.Line, t.Path, "failures without how long how many drives ran", "drive_days, or drives, since and until", "")
		t.Know(append(how, "age")...)
		return
	}
	t.Number("drive_days", &days)
	t.Count("drives", &drives)
	since, until := date(t, "since"), date(t, "until")
	t.Quantity("age", &age)
	if t.Given("drive_days") {
		for _, other := range []string{"drives", "since", "until", "age"} {
			if t.Given(other) {
				t.Wrong(other, "it beside drive_days", "one of the two", "")
			}
		}
		if failures < 0 || days == 0 {
			return
		}
		e.Ageless = true
		e.spans = []span{{days * 24, 0, days * 24}}
	} else {
		if !t.Given("until") {
			t.Fail(t.Node.Line, toml.Join(t.Path, "until"), "nothing", t.Key("until").Expected(), "")
		}
		watched := until.Sub(since).Hours()
		switch {
		case failures < 0 || since.IsZero() || until.IsZero() || drives == 0:
			return
		case watched <= 0:
			t.Wrong("until", until.Format(time.DateOnly), "a day after that of since, "+since.Format(time.DateOnly), "")
			return
		case watched > mostWatched:
			t.Wrong("until", until.Format(time.DateOnly), "a day at most 50 years after that of since, "+since.Format(time.DateOnly), "")
			return
		}
		days = float64(drives) * watched / 24
		e.spans = []span{{days * 24, age, age + watched}}
	}
	e.Failures, e.DriveDays = float64(failures), days
	if e.Failures > e.DriveDays {
		t.Wrong("failures", t.Written("failures", ""), "no more failures than drive-days", "")
	}
}

// Told returns so many failures in so many drive-days, in words.
func Told(failures, driveDays float64) string {
	what := "failures"
	if failures == 1 {
		what = "failure"
	}
	return fmt.Sprintf("%s %s in %s drive-days", unit.Digits(failures, 15), what, unit.Digits(math.Round(driveDays), 15))
}
