package study

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
)

// Suggestions are the fewest drives that hold the footage of a site.
type Suggestions struct {
	Site     array.Site
	Recorder *array.Recorder // nil where the site file has none
	Bays     int             // 0: no limit
	Fittings []array.Fitting // every drive in every layout
	Choices  []array.Choice  // of each layout the one that costs least, labelled
	LeftOut  []string        // drives that were not tried, and why
}

// Suggest fits every drive of a site in every layout, in at most so many bays, 0
// being the bays of the recorder. Nothing is simulated.
func Suggest(f *site.File, bays int) Suggestions {
	found := Suggestions{Site: f.Site, Recorder: f.Recorder, Bays: bays}
	if bays == 0 && f.Recorder != nil {
		found.Bays = f.Recorder.Bays
	}
	var models []array.Drive
	for _, d := range f.Site.Drives {
		if d.Transfer < f.Care.RebuildFloor {
			found.LeftOut = append(found.LeftOut, fmt.Sprintf("%s is left out: at %s it is slower than the rebuild_floor of %s.", d.Label, unit.FormatRate(d.Transfer), unit.FormatRate(f.Care.RebuildFloor)))
			continue
		}
		models = append(models, d)
	}
	found.Fittings = f.Site.Fit(models, array.LayoutsToFit(f.Site.Choices), f.Care, f.Recorder, found.Bays, 0)
	for _, best := range array.Cheapest(found.Fittings) {
		choice := best.Choice
		choice.Label = suggestionLabel(choice)
		found.Choices = append(found.Choices, choice)
	}
	return found
}

// suggestionLabel returns a label that says what a suggestion is: "RAID 60, 2 x 6 x
// 12 TB". There is one suggestion for each layout, so that no two are the same.
func suggestionLabel(c array.Choice) string {
	const room = 100 // of the drive's label, so that the whole is short enough
	drive := []rune(c.Drive.Label)
	if len(drive) > room {
		drive = append(drive[:room-1], '…')
	}
	if c.Groups > 1 {
		return fmt.Sprintf("%s, %d x %d x %s", c.Layout, c.Groups, c.Drives/c.Groups, string(drive))
	}
	return fmt.Sprintf("%s, %d x %s", c.Layout, c.Drives, string(drive))
}
