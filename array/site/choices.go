package site

import (
	"errors"
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

var choicesKey = Key{Path: "choices", Kind: toml.Tables, Most: 200, Item: "choice", Required: true, Doc: "What could be bought."}

var choiceKeys = slices.Concat(
	[]Key{
		{Path: "label", Kind: toml.Text, Required: true, Right: labelRight, Doc: "The choice's name, no two alike."},
		{Path: "drive", Called: "drive model", Kind: toml.Text, LabelOf: "drives", Required: true, Right: "the label of one of the [[drives]]", Doc: "The label of its drive model."},
		{Path: "layout", Called: "layout", Kind: toml.Word, Words: levelNames(), Other: `an erasure code such as "6+3"`, Required: true,
			Doc: "How footage is laid over the drives; case, blanks and hyphens do not matter."},
		{Path: "drives", Called: "number of drives", Kind: toml.Whole, Min: "1", Max: "1000", Required: true, Doc: "Drives in all, hot spares not counted."},
		{Path: "groups", Called: "number of groups", Kind: toml.Whole, Min: "1", Max: "1000", Default: "1", Doc: "Groups into which the drives divide evenly."},
		{Path: "hot_spares", Called: "number of hot spares", Kind: toml.Whole, Min: "0", Max: "100", Default: "0", Doc: "Drives that stand in at once; with the others they must fit the recorder's bays."},
	},
	overriding(Key{Path: "care", Kind: toml.SubTable, Doc: "What differs from the site's care."}, careKeys),
	overriding(Key{Path: "recorder", Kind: toml.SubTable, Doc: "What differs from the site's recorder."}, recorderKeys),
)

// levelNames returns the layouts as a site file writes them.
func levelNames() (names []string) {
	for _, l := range array.Levels() {
		names = append(names, l.String())
	}
	return names
}

// choices reads what could be bought at a site whose cameras are read. care and recorder
// are the site's.
func (r *reader) choices(t *toml.Table, from catalogue, care array.Care, recorder *array.Recorder, s array.Site) []array.Choice {
	items := t.Children("choices")
	if !r.options.noChoice {
		t.AtLeastOne("choices")
	}
	var all []array.Choice
	named := labels{}
	for i, n := range items {
		c := array.Choice{Care: care, Recorder: recorder}
		o := t.Table(n, "", "choices")
		o.Label(i+1, &c.Label)
		named.add(o, c.Label)
		drive := readDrive(o, from, &c.Drive)
		layout := readLayout(o, &c.Layout)
		o.Count("drives", &c.Drives)
		o.Count("groups", &c.Groups)
		o.Count("hot_spares", &c.HotSpares)
		if own := o.Child("care"); own != nil {
			own.Keep = true
			if own.Given("rebuild_floor") { // where it cannot be read, the site's is not meant
				c.Care.RebuildFloor = 0
			}
			readCare(own, &c.Care)
		}
		if own := o.Child("recorder"); own != nil {
			its := freshRecorder()
			if own.Keep = recorder != nil; own.Keep {
				its = *recorder
			}
			if own.Given("bays") {
				its.Bays = 0
			}
			readRecorder(own, &its)
			c.Recorder = &its
		}
		o.Done()
		if layout && drive && s.Demand().Room > 0 && r.how.Resize != nil && r.how.Resize(i) {
			r.resize(i, &c, s)
		}
		if layout && c.Drives > 0 && c.Groups > 0 && r.unfit[i] == "" {
			r.divides(o, i, c)
		}
		r.fits(o, i, c)
		if drive {
			rebuildable(o, c)
		}
		all = append(all, c)
	}
	return all
}

// readDrive looks the drive model up.
func readDrive(t *toml.Table, from catalogue, dst *array.Drive) bool {
	n := t.Ask("drive")
	if n == nil {
		return false
	}
	label, ok := t.Line("drive", n)
	if !ok {
		return false
	}
	d, there := from.drives[label]
	if !there && from.partial {
		return false
	}
	if !there {
		right := t.Key("drive").Expected()
		if len(from.labels) > 0 && len(from.labels) <= 12 {
			right += ": " + toml.QuotedList(from.labels)
		}
		t.WrongAt(n, "drive", unit.Quote(label)+", a label that no drive has", right, nearest.Name(label, from.labels))
		return false
	}
	*dst = d
	t.NoteValue("drive", label)
	return true
}

// readLayout reads the name of a layout.
func readLayout(t *toml.Table, dst *array.Layout) bool {
	n := t.Ask("layout")
	if n == nil {
		return false
	}
	k := t.Key("layout")
	if n.Kind != toml.StringNode {
		t.WrongAt(n, "layout", n.Shown(), k.Expected(), "")
		return false
	}
	l, err := array.ParseLayout(n.Text)
	if err != nil {
		t.WrongAt(n, "layout", unit.Quote(n.Text), k.Expected(), nearest.Name(n.Text, k.Words))
		return false
	}
	*dst = l
	t.NoteValue("layout", l.String())
	return true
}

// divides checks that the layout can be laid over the drives.
func (r *reader) divides(t *toml.Table, i int, c array.Choice) {
	_, err := c.Layout.Shape(c.Drives, c.Groups)
	var misfit *array.Misfit
	if errors.As(err, &misfit) {
		if r.how.Lenient {
			r.misfits(i, misfit.Found+"; right would be "+misfit.Right)
			return
		}
		t.Wrong(misfit.Key, misfit.Found, misfit.Right, "")
	}
}

// fits checks that the recorder has a bay for every drive.
func (r *reader) fits(t *toml.Table, i int, c array.Choice) {
	if c.Recorder == nil || c.Recorder.Bays == 0 {
		return
	}
	if bays := c.Recorder.Bays; c.Drives+c.HotSpares > bays {
		found := unit.Count(c.Drives, "drive", "drives")
		if c.HotSpares > 0 {
			found += " and " + unit.Count(c.HotSpares, "hot spare", "hot spares")
		}
		if r.how.Lenient {
			r.misfits(i, fmt.Sprintf("%s, and the recorder has %s", found, unit.Count(bays, "bay", "bays")))
			return
		}
		t.Wrong("drives", found, fmt.Sprintf("at most %d, the bays of the recorder", bays), "")
	}
}

// rebuildable checks that the rebuild is not asked to be faster than the drive.
func rebuildable(t *toml.Table, c array.Choice) {
	if c.Drive.Transfer > 0 && c.Care.RebuildFloor > c.Drive.Transfer {
		t.Wrong("drive", fmt.Sprintf("a drive of %s under a rebuild_floor of %s", unit.FormatRate(c.Drive.Transfer), unit.FormatRate(c.Care.RebuildFloor)), "a floor that the drive can keep up with", "")
	}
}

// resize gives a choice the fewest drives that hold the demand of the site.
func (r *reader) resize(i int, c *array.Choice, s array.Site) {
	fewest, ok := c.Fewest(s.Demand().Room, s.Width(c.Layout))
	if !ok {
		r.misfits(i, fmt.Sprintf("not even %s drives hold it as %s", unit.Digits(array.MaxDrives, 4), c.Layout))
		return
	}
	c.Drives, c.Groups = fewest.Drives, fewest.Groups
}

// misfits puts down why a choice cannot be built. The first reason stays.
func (r *reader) misfits(i int, why string) {
	if r.unfit == nil {
		r.unfit = map[int]string{}
	}
	if r.unfit[i] == "" {
		r.unfit[i] = why
	}
}
