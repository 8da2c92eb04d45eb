package choose

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

const (
	// MostDesigns is the most that are searched.
	MostDesigns = 10_000
	// mostDrives is the most of a design where the recorder's bays are not known.
	mostDrives = 60
)

// Design is one thing that could be bought, with what it comes to.
type Design struct {
	Choice    array.Choice
	Sizing    array.Sizing // its purchase price with what options cost once
	Options   []array.Option
	Customary bool // no group is wider than is customary

	Loss, Missing estimate.Estimate // as entered; Missing without cameras is not known
	Replaced      estimate.Estimate // drives, over the life
	Cost          float64           // over the service life, NaN where it is not known
	Trials        int
	Front         bool // nothing is cheaper and safer, and misses no more clips

	set int // of options
}

// set is options that are taken together, with the file as it is then.
type set struct {
	options  []array.Option
	settings []axis.Setting
	file     *site.File
}

// sets returns the sets of options of a site in which none excludes another, the empty one
// first.
func sets(source *axis.Source) (all []set, err error) {
	options := source.File().Site.Options
	each := make([][]axis.Setting, len(options))
	for i, o := range options {
		if each[i], err = source.Option(o); err != nil {
			return nil, err
		}
	}
	for bits := range 1 << len(options) {
		var s set
		clash := false
		for i, o := range options {
			if bits>>i&1 == 0 {
				continue
			}
			for _, other := range s.options {
				clash = clash || o.Clashes(other)
			}
			s.options, s.settings = append(s.options, o), append(s.settings, each[i]...)
		}
		if clash {
			continue
		}
		if s.file, err = source.With(s.settings...); err != nil {
			if meets(s.settings) { // two that set one input cannot be taken together
				continue
			}
			return nil, err
		}
		all = append(all, s)
	}
	return all, nil
}

// meets reports whether two of the settings are of one input.
func meets(settings []axis.Setting) bool {
	for i, a := range settings {
		for _, b := range settings[:i] {
			if a.Axis.Meets(b.Axis) {
				return true
			}
		}
	}
	return false
}

// designs lists what could be bought, the drives of a file in every layout, as
// [array.Site.Designs] does.
func designs(all []set, bays, spares int) (found []Design, err error) {
	for k, s := range all {
		f := s.file
		most := bays
		if most == 0 && f.Recorder != nil {
			most = f.Recorder.Bays
		}
		if most == 0 {
			most = mostDrives
		}
		models := slices.DeleteFunc(slices.Clone(f.Site.Drives), func(d array.Drive) bool { return d.Transfer < f.Care.RebuildFloor })
		for hot := range spares + 1 {
			for _, fit := range f.Site.Designs(models, array.LayoutsToFit(f.Site.Choices), f.Care, f.Recorder, most, hot) {
				if hot > 0 && !fit.Sizing.Shape.Rebuilds() {
					continue // nothing would be rebuilt onto it
				}
				d := Design{Choice: fit.Choice, Sizing: fit.Sizing, Customary: fit.Customary, set: k}
				s.priced(&d)
				found = append(found, d)
				if len(found) > MostDesigns {
					return nil, &study.LimitError{Found: fmt.Sprintf("more than %d designs to search", MostDesigns), Right: "fewer options, drive models or --spares"}
				}
			}
		}
	}
	return found, nil
}

// priced adds the options of the set to a design, with what they cost once.
func (s set) priced(d *Design) {
	d.Options = s.options
	for _, o := range s.options {
		d.Sizing.Purchase += o.Price
	}
	d.Choice.Label = d.name()
}

// name says what a design is: "RAID 6, 7 x 18 TB, hot spare; Technician within 8 h".
func (d Design) name() string {
	c := d.Choice
	text := fmt.Sprintf("%s, %d x %s", c.Layout, c.Drives, label.Cut(c.Drive.Label, 40))
	if c.Groups > 1 {
		text = fmt.Sprintf("%s, %d x %d x %s", c.Layout, c.Groups, c.Drives/c.Groups, label.Cut(c.Drive.Label, 40))
	}
	switch {
	case c.HotSpares == 1:
		text += ", hot spare"
	case c.HotSpares > 1:
		text += fmt.Sprintf(", %d hot spares", c.HotSpares)
	}
	var names []string
	for _, o := range d.Options {
		names = append(names, label.Cut(o.Label, 40))
	}
	if names != nil {
		text += "; " + strings.Join(names, "; ")
	}
	return label.Cut(text, 118)
}

// byCost sorts designs by what they cost, the safer first where that is the same.
func byCost(all []Design) {
	slices.SortStableFunc(all, func(a, b Design) int {
		return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Loss.Value, b.Loss.Value))
	})
}
