package site

import (
	"errors"
	"fmt"
	"strings"

	"arrayodds/array"
	"arrayodds/array/unit"
)

const (
	maxChoices = 200
	maxDrives  = 1000
	maxSpares  = 100
)

// choices reads what could be bought. care and recorder are the site's, needed
// the bytes that its cameras ask for.
func (t *table) choices(from catalogue, care array.Care, recorder *array.Recorder, needed float64) []array.Choice {
	items := t.children("choices", maxChoices)
	if !t.options.noChoice {
		t.atLeastOne("choices", "choice")
	}
	var all []array.Choice
	named := labels{}
	for i, n := range items {
		c := array.Choice{Care: care, Recorder: recorder}
		o := t.in(n, "", "choices")
		o.label(required, i+1, &c.Label)
		named.add(o, c.Label)
		drive := o.drive(from, &c.Drive)
		layout := o.layout(&c.Layout)
		o.count("drives", required, limits{1, maxDrives}, &c.Drives)
		o.count("groups", standard(1), limits{1, maxDrives}, &c.Groups)
		o.count("hot_spares", standard(0), limits{0, maxSpares}, &c.HotSpares)
		if own := o.child("care"); own != nil {
			own.keeps = true
			own.care(&c.Care)
		}
		if own := o.child("recorder"); own != nil {
			r := freshRecorder()
			if own.keeps = recorder != nil; own.keeps {
				r = *recorder
			}
			own.recorder(&r)
			c.Recorder = &r
		}
		o.done()
		if layout && drive && needed > 0 && t.resize != nil && t.resize(i) {
			o.resized(i, &c, needed)
		}
		if layout && c.Drives > 0 && c.Groups > 0 && t.unfit[i] == "" {
			o.divides(i, c)
		}
		o.fits(i, c)
		if drive {
			o.rebuildable(c)
		}
		all = append(all, c)
	}
	return all
}

// drive looks the drive model up.
func (t *table) drive(from catalogue, dst *array.Drive) bool {
	right := "the label of one of the [[drives]]"
	n := t.ask("drive", required, right)
	if n == nil {
		return false
	}
	label, ok := t.words("drive", n)
	if !ok {
		return false
	}
	d, there := from.drives[label]
	if !there && from.partial {
		return false
	}
	if !there {
		if len(from.labels) > 0 && len(from.labels) <= 12 {
			right += ": " + quotedList(from.labels)
		}
		t.wrongAt(n, "drive", unit.Quote(label)+", a label that no drive has", right, nearest(label, from.labels))
		return false
	}
	*dst = d
	t.tell("drive", label)
	return true
}

func quotedList(all []string) string {
	quoted := make([]string, len(all))
	for i, s := range all {
		quoted[i] = unit.Quote(s)
	}
	return strings.Join(quoted, ", ")
}

// layout reads the name of a layout.
func (t *table) layout(dst *array.Layout) bool {
	var names []string
	for _, l := range array.Levels() {
		names = append(names, l.String())
	}
	right := "one of " + strings.Join(names, ", ") + `, or an erasure code such as "6+3"`
	n := t.ask("layout", required, right)
	if n == nil {
		return false
	}
	if n.kind != text {
		t.wrongAt(n, "layout", n.shown(), right, "")
		return false
	}
	l, err := array.ParseLayout(n.text)
	if err != nil {
		t.wrongAt(n, "layout", unit.Quote(n.text), right, nearest(n.text, names))
		return false
	}
	*dst = l
	t.tell("layout", l.String())
	return true
}

// divides checks that the layout can be laid over the drives.
func (t *table) divides(i int, c array.Choice) {
	_, err := c.Layout.Shape(c.Drives, c.Groups)
	var misfit *array.Misfit
	if errors.As(err, &misfit) {
		if t.soft {
			t.misfits(i, misfit.Found+"; right would be "+misfit.Right)
			return
		}
		t.wrong(misfit.Key, misfit.Found, misfit.Right, "")
	}
}

// fits checks that the recorder has a bay for every drive.
func (t *table) fits(i int, c array.Choice) {
	if c.Recorder == nil || c.Recorder.Bays == 0 {
		return
	}
	if bays := c.Recorder.Bays; c.Drives+c.HotSpares > bays {
		found := some(c.Drives, "drive")
		if c.HotSpares > 0 {
			found += " and " + some(c.HotSpares, "hot spare")
		}
		if t.soft {
			t.misfits(i, fmt.Sprintf("%s, and the recorder has %s", found, some(bays, "bay")))
			return
		}
		t.wrong("drives", found, fmt.Sprintf("at most %d, the bays of the recorder", bays), "")
	}
}

func some(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}

// rebuildable checks that the rebuild is not asked to be faster than the drive.
func (t *table) rebuildable(c array.Choice) {
	if c.Drive.Transfer > 0 && c.Care.RebuildFloor > c.Drive.Transfer {
		t.wrong("drive", fmt.Sprintf("a drive of %s under a rebuild_floor of %s", unit.FormatRate(c.Drive.Transfer), unit.FormatRate(c.Care.RebuildFloor)), "a floor that the drive can keep up with", "")
	}
}
