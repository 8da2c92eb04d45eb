package site

import (
	"io"
	"io/fs"
	"math"

	"arrayodds/array"
	"arrayodds/array/schedule"
	"arrayodds/array/toml"
)

// File is a site file that was read.
type File struct {
	Site        array.Site
	Care        array.Care      // the site's, which choices may override
	Recorder    *array.Recorder // the same; nil where the file has none
	Schedule    string          // the path of the schedule that was read, as Beside opened it; empty: none
	Logo        string          // the same of the logo
	Run         Run
	Assumptions []Assumption
	// Unfit is the choices that cannot be built with the values given, by their
	// index, and why: "14 drives, and the recorder has 12 bays". They are listed
	// among the choices all the same, and are not to be sized or simulated. Only
	// [Document.ReadTree] gives any: in a file such a choice is an error.
	Unfit map[int]string
}

// Run is how the simulation is to be run.
type Run struct {
	Seed     uint64  // 0 to 2^63 − 1
	Accuracy float64 // 95 % half-width of the loss chance, relative: 0.0001 to 1
	// MaxTrials is the budget of trials for each choice, 1 000 to 10^10.
	MaxTrials int64
}

// Assumption is one setting that the result rests on.
type Assumption struct {
	Path    string // "drives.12 TB.life"; things go by their labels
	Text    string // the value, as one would say it
	Default bool   // the file does not give it
}

// Error and Errors are what is wrong with a site file.
type (
	Error  = toml.Error
	Errors = toml.Errors
)

// Option is something that [Read] does beyond the ordinary.
type Option func(*options)

type options struct {
	beside   fs.FS             // nil: nothing can be opened
	workbook schedule.Workbook // nil: none can be read
	noChoice bool
}

// Beside lets a site file name a schedule of cameras and a logo. They are opened in
// fsys by the path that the file gives, which cannot lead out of it. Without this
// option such a name is an error.
func Beside(fsys fs.FS) Option { return func(o *options) { o.beside = fsys } }

// Workbooks lets a schedule be a workbook, which read reads: the Read of package
// array/schedule/workbook. Without this option a schedule is CSV, and a workbook is an
// error.
func Workbooks(read schedule.Workbook) Option { return func(o *options) { o.workbook = read } }

// ChoicesOptional reads a file that has no [[choices]], for those who look for
// some.
func ChoicesOptional() Option { return func(o *options) { o.noChoice = true } }

// Read reads a site file and judges it. name is what errors call the file.
//
// Where anything is wrong with what is written, the error is of type [Errors]
// and lists all of it; any other error is of the reader r.
func Read(r io.Reader, name string, opts ...Option) (*File, error) {
	d, err := Open(r, name, opts...)
	if err != nil {
		return nil, err
	}
	return d.file, nil
}

var siteKeys = []Key{
	{Path: "name", Kind: toml.Text, Default: "Unnamed site", Doc: "What the reports call the site."},
	{Path: "service_life", Called: "service life", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 d", Max: "50 y", Required: true, Doc: "How long the choice has to serve: the risk is that within it."},
	{Path: "currency", Kind: toml.Text, Right: currencyRight, Doc: "What every sum is in, as it is to be shown behind it."},
	{Path: "energy_price", Called: "price of a kWh", Kind: toml.Number, Min: "0", Max: "1e6", Absent: "not given: energy has no price", Doc: "What a kWh costs, in the site's currency."},
	{Path: "growth", Called: "room to grow", Kind: toml.Measured, Quantity: toml.Share, Min: "0", Max: "10", Default: "0", Doc: "Room that a choice has to have on top of what the cameras need, as a share of it."},
}

// site reads the whole of it.
func (r *reader) site(t *toml.Table) *File {
	f := &File{}
	s := &f.Site
	t.Text("name", &s.Name)
	t.Quantity("service_life", &s.ServiceLife)
	readCurrency(t, &s.Currency)
	s.EnergyPrice = math.NaN()
	t.Number("energy_price", &s.EnergyPrice)
	t.Quantity("growth", &s.Growth)
	s.Widths = readSizing(t)
	s.Document = r.document(t)
	f.Logo = r.logo.path
	s.Build = readBuild(t)
	s.Goal = readGoal(t)
	s.Cameras = r.cameras(t)
	f.Schedule = r.scheduled
	drives := readDrives(t)
	r.readLogs(t, &drives)
	for _, label := range drives.labels {
		s.Drives = append(s.Drives, drives.drives[label])
	}
	readCare(section(t, "care"), &f.Care)
	s.Hazards = readHazards(section(t, "hazards"))
	f.Recorder = readSiteRecorder(t)
	s.Choices = r.choices(t, drives, f.Care, f.Recorder, *s)
	f.Unfit = r.unfit
	s.Options = readOptions(t)
	readRun(section(t, "run"), &f.Run)
	t.Done()
	return f
}

// section returns a table that need not be there: then every key has its default.
func section(t *toml.Table, key string) *toml.Table {
	if c := t.Child(key); c != nil {
		return c
	}
	return t.Table(nil, key, key)
}

func readSiteRecorder(t *toml.Table) *array.Recorder {
	c := t.Child("recorder")
	if c == nil {
		return nil
	}
	r := freshRecorder()
	readRecorder(c, &r)
	return &r
}

var runKey = Key{Path: "run", Kind: toml.SubTable, Doc: "How the simulation is to be run."}

var runKeys = []Key{
	{Path: "seed", Kind: toml.Whole, Min: "0", Max: "9223372036854775807", Default: "1", Doc: "Where the random streams start; the same one gives the same digits."},
	{Path: "accuracy", Kind: toml.Measured, Quantity: toml.Share, Min: "0.01 %", Max: "100 %", Default: "5 %",
		Doc: "Half of the 95 % interval of the loss chance that is good enough, as a share of it."},
	{Path: "max_trials", Kind: toml.Whole, Min: "1000", Max: "1e10", Default: "20000000", Doc: "Trials of a choice after which it is left as it is."},
}

func readRun(t *toml.Table, r *Run) {
	seed := int64(0)
	t.Integer("seed", &seed)
	t.Quantity("accuracy", &r.Accuracy)
	t.Integer("max_trials", &r.MaxTrials)
	r.Seed = uint64(seed)
	t.Done()
}
