package site

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/evidence"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// logs is what was read of the log of a site file once, so that reading it again with
// other values takes no time: see [Document.updates].
type logs struct {
	entries map[*toml.Node]*evidence.Entry // by their tables
	ranges  map[rates][]evidence.Range     // that the file gives of the failure rate of drives
	updates map[rates]*array.Log           // nil until they are known
	lives   map[rates]array.Life           // after the log
}

// rateKeys are the keys of a life that say how often drives fail, and not how that
// changes with age.
var rateKeys = [...]string{"afr", "mtbf", "scale", "afr_by_year", "failures", "drive_days"}

// rates are the values of these keys of a drive. While they are those of the file, the log
// updates the law; another value that is set in their place is what it is, and known.
type rates [len(rateKeys)]*toml.Node

func ratesOf(drive *toml.Node) (r rates) {
	life := drive.Under["life"]
	if life == nil || life.Kind != toml.TableNode {
		return r
	}
	for i, key := range rateKeys {
		r[i] = life.Under[key]
	}
	return r
}

// stated returns the key that states the rate of a drive.
func (r rates) stated() string {
	for i, n := range r {
		if n != nil {
			return rateKeys[i]
		}
	}
	return ""
}

// readLogs reads the log of the site and updates the laws of its drives by it, where what
// they were before is known already.
func (r *reader) readLogs(t *toml.Table, from *catalogue) {
	items := t.Children("log")
	if len(items) == 0 {
		return
	}
	r.logs = &logs{entries: map[*toml.Node]*evidence.Entry{}}
	byDrive := map[string][]*evidence.Entry{}
	first := map[string]*toml.Node{}
	for i, n := range items {
		e := r.logEntry(t, n, i, *from)
		if e == nil {
			continue
		}
		r.logs.entries[n] = e
		byDrive[e.Drive] = append(byDrive[e.Drive], e)
		if first[e.Drive] == nil {
			first[e.Drive] = n
		}
	}
	if r.logsBefore == nil || r.logsBefore.ranges == nil {
		return
	}
	for _, label := range from.labels {
		all := byDrive[label]
		if all == nil {
			continue
		}
		d := from.drives[label]
		key := ratesOf(from.nodes[label])
		ranges, known := r.logsBefore.ranges[key]
		if !known || d.Life == nil { // another value stands in its place, or one that is none
			continue
		}
		switch log := r.logsBefore.updates[key]; {
		case log == nil:
			d.Log, d.Life = updatedLife(d, key.stated(), all, ranges)
		case reflect.DeepEqual(log.Stated, d.Life):
			d.Log, d.Life = log, r.logsBefore.lives[key]
		default: // another shape or error at the same rate; what else multiplies it stays
			as := d
			as.HazardMultiplier = log.Multiplier
			d.Log, d.Life = updatedLife(as, key.stated(), all, ranges)
		}
		from.drives[label] = d
		at := toml.Join(toml.Join("drives", label), "log")
		t.Note(first[label].Offset, at, "the failure rate is "+evidence.Words(d.Log), false)
		for _, e := range all {
			for _, note := range e.Notes {
				t.Note(first[label].Offset, at, note, false)
			}
		}
	}
}

// logEntry reads a table of the log; nil where it is of no drive, or says nothing.
func (r *reader) logEntry(t *toml.Table, n *toml.Node, i int, from catalogue) *evidence.Entry {
	if r.logsBefore != nil && r.logsBefore.entries[n] != nil {
		return r.logsBefore.entries[n]
	}
	in := t.Table(n, toml.Join("log", t.LabelOf(n, "log", i)), "log")
	in.Quiet = true
	var d array.Drive
	ok := readDrive(in, from, &d)
	e := &evidence.Entry{Drive: d.Label}
	ok = e.Read(in, r.opened) && ok
	in.Done()
	if !ok || d.Life == nil || e.DriveDays == 0 {
		return nil
	}
	key := "file"
	if !in.Given(key) {
		key = "failures"
	}
	ofDrives := func(e toml.Error) bool { return strings.HasPrefix(e.Key, "drives.") }
	switch expected := e.Expected(d.Life) * d.HazardMultiplier; {
	case slices.ContainsFunc(t.Errs, ofDrives): // what is expected hangs on them
	case e.Ageless && d.Life.About().Ages && key == "file":
		in.Wrong(key, "sums without the ages of drives", fmt.Sprintf("age_from and age_to beside them, as the failure rate of %s changes with age", unit.Quote(d.Label)), "")
	case e.Ageless && d.Life.About().Ages:
		in.Wrong("drive_days", "days of drives whose age it does not tell", fmt.Sprintf("drives, since and until in their place, as the failure rate of %s changes with age", unit.Quote(d.Label)), "")
	case e.Failures > mostTimes*expected:
		in.Wrong(key, fmt.Sprintf("%s, where the law of %s expects %s", evidence.Told(e.Failures, e.DriveDays), unit.Quote(d.Label), unit.Digits(expected, 2)),
			"a log and a law that are nearer to each other", "")
	default:
		return e
	}
	return nil
}

// mostTimes is how many times as many drives may have failed as are expected.
const mostTimes = 1e6

// updatedLife returns what the entries of the log of a drive make of its law.
func updatedLife(d array.Drive, key string, all []*evidence.Entry, ranges []evidence.Range) (*array.Log, array.Life) {
	expected := func(l array.Life) (sum float64) {
		for _, e := range all {
			sum += e.Expected(l)
		}
		return sum
	}
	log := &array.Log{Stated: d.Life, Multiplier: d.HazardMultiplier, Expected: expected(d.Life) * d.HazardMultiplier}
	for _, e := range all {
		log.Failures += e.Failures
		log.DriveDays += e.DriveDays
		if e.Fleet != nil {
			log.Fleets = append(log.Fleets, *e.Fleet)
		}
	}
	if fit, ok := d.Life.(array.FittedWeibull); ok {
		r := evidence.Refitted(fit, ranges, log.Failures, func(l array.Life) float64 { return expected(l) * d.HazardMultiplier })
		log.Before, log.After, log.Ground = r.Before, r.After, r.Ground
		return log, r.Life
	}
	b := evidence.Given(d.Life, key, ranges)
	log.Before, log.Ground = b.Before, b.Ground
	log.After = b.Before.Updated(log.Failures, log.Expected)
	return log, b.Updated(log.Failures, log.DriveDays, log.Expected, d.HazardMultiplier)
}

// updates works out what the log makes of the laws of the drives, once the file is known
// to be right. ends are the drives as they are at the low and the high end of each range.
func (d *Document) updates(ends [][2][]array.Drive) {
	if d.logs == nil {
		return
	}
	l := *d.logs
	l.ranges, l.updates, l.lives = map[rates][]evidence.Range{}, map[rates]*array.Log{}, map[rates]array.Life{}
	byDrive := map[string][]*evidence.Entry{}
	for _, n := range d.Root.Under["log"].Items {
		if e := l.entries[n]; e != nil {
			byDrive[e.Drive] = append(byDrive[e.Drive], e)
		}
	}
	for i, drive := range d.file.Site.Drives {
		key := ratesOf(d.Root.Under["drives"].Items[i])
		ranges := []evidence.Range{}
		all := byDrive[drive.Label]
		expected := func(of array.Drive) (sum float64) {
			for _, e := range all {
				sum += e.Expected(of.Life)
			}
			return sum * of.HazardMultiplier
		}
		for j, u := range d.Ranges {
			if all != nil && ofRate(u.At) && u.At[1].Item == i {
				likely, low, high := expected(drive), expected(ends[j][0][i]), expected(ends[j][1][i])
				if likely > 0 && low > 0 && high > 0 {
					ranges = append(ranges, evidence.Range{Low: min(low, high) / likely, High: max(low, high) / likely})
				}
			}
		}
		l.ranges[key] = ranges
		if all != nil {
			l.updates[key], l.lives[key] = updatedLife(drive, key.stated(), all, ranges)
		}
	}
	d.logs = &l
	// What was found wrong would have been found before.
	d.file, _ = d.ReadTree(d.Root, Reading{})
}

// ofRate reports whether a place says how often drives fail, and not how that changes with
// age.
func ofRate(at []toml.Step) bool {
	if len(at) < 3 || at[0].Key != "drives" {
		return false
	}
	if at[2].Key == "hazard_multiplier" {
		return true
	}
	if at[2].Key != "life" {
		return false
	}
	return len(at) == 3 || at[3].Key == "afr" || at[3].Key == "mtbf" || at[3].Key == "scale" || at[3].Key == "afr_by_year"
}

// Updated reports whether a place of the file says how often drives fail of a model of
// which the site's log has updated that. What the log made of it is in place of ranges
// there.
func (d *Document) Updated(at []toml.Step) bool {
	if !ofRate(at) {
		return false
	}
	i := at[1].Item
	if i >= len(d.file.Site.Drives) {
		return false
	}
	model := d.file.Site.Drives[i]
	switch model.Life.(type) {
	case array.UpdatedLife:
		return true
	case array.FittedWeibull:
		return model.Log != nil
	}
	return false
}

// Known makes the law of a drive in a tree that which the file states, and certain: the
// log does not update it, as what is set there has the log in it already.
func (o Overlay) Known(drive int) {
	at := []toml.Step{{Key: "drives"}, {Item: drive}, {Key: "life"}}
	for _, key := range rateKeys {
		steps := append(at[:3:3], toml.Step{Key: key})
		if n := o.Root.Find(steps); n != nil {
			o.Set(steps, n.Copy(), n.Line)
		}
	}
	for _, key := range []string{"shape_error", "scale_error"} {
		steps := append(at[:3:3], toml.Step{Key: key})
		if n := o.Root.Find(steps); n != nil {
			o.Set(steps, &toml.Node{Kind: toml.MeasuredNode, Line: n.Line}, n.Line)
		}
	}
}

// KnownFit makes the law of a drive in a tree that of which a parameter was set there, and
// certain: the other one is what the log made of the fit, where it was not set too.
func (o Overlay) KnownFit(drive int, before *toml.Node, fit array.FittedWeibull) {
	for key, value := range map[string]float64{"shape": fit.Shape, "scale": fit.Scale} {
		steps := []toml.Step{{Key: "drives"}, {Item: drive}, {Key: "life"}, {Key: key}}
		if n := o.Root.Find(steps); n != nil && n == before.Find(steps) {
			o.Set(steps, &toml.Node{Kind: toml.MeasuredNode, Line: n.Line, Value: value, Text: n.Text}, n.Line)
		}
	}
	o.Known(drive)
}
