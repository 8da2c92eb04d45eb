package sizing

import (
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
)

// Suggestions are the fewest drives that hold the footage of a site.
type Suggestions struct {
	Site     array.Site
	Care     array.Care
	Recorder *array.Recorder   // nil where the site file has none
	Bays     int               // 0: no limit
	Spares   int               // hot spares beside the drives
	Fittings []array.Fitting   // every drive in every layout, labelled
	Short    []array.Shortfall // layouts that nothing fits in, and what would be enough
	Choices  []array.Choice    // of each layout the one that costs least, labelled
	LeftOut  []string          // drives that were not tried, and why
}

// Suggest fits every drive of a site in every layout, in at most so many bays, 0
// being the bays of the recorder, beside so many hot spares. Nothing is simulated.
func Suggest(f *site.File, bays, spares int) Suggestions {
	found := Suggestions{Site: f.Site, Care: f.Care, Recorder: f.Recorder, Bays: bays, Spares: spares}
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
	layouts := array.LayoutsToFit(f.Site.Choices)
	found.Fittings = f.Site.Fit(models, layouts, f.Care, f.Recorder, found.Bays, spares)
	for i := range found.Fittings {
		if c := &found.Fittings[i].Choice; found.Fittings[i].Found {
			c.Label = designLabel(*c)
		}
	}
	found.Short = f.Site.Shortfalls(models, layouts, f.Care, f.Recorder, found.Bays, spares)
	for _, best := range array.Cheapest(found.Fittings) {
		found.Choices = append(found.Choices, best.Choice)
	}
	return found
}

// Fit reports whether anything fits.
func (z Suggestions) Fit() bool {
	return slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return f.Found && f.Fits })
}

// Suggested returns the choice that a fitting is suggested as; 0 where it is not, else
// the number of the choice, from 1.
func (z Suggestions) Suggested(f array.Fitting) int {
	return 1 + slices.IndexFunc(z.Choices, func(c array.Choice) bool {
		return f.Found && c.Layout == f.Layout && c.Drive.Label == f.Drive.Label && c.Drives == f.Choice.Drives && c.Groups == f.Choice.Groups
	})
}

// designLabel returns a label that says what a design is: "RAID 60, 2 x 6 x 12 TB".
// There is one suggestion for each layout, so that no two are the same.
func designLabel(c array.Choice) string {
	const room = 100 // of the drive's label, so that the whole is short enough
	drive := []rune(c.Drive.Label)
	if len(drive) > room {
		drive = append(drive[:room-1], '…')
	}
	text := fmt.Sprintf("%s, %d x %s", c.Layout, c.Drives, string(drive))
	if c.Groups > 1 {
		text = fmt.Sprintf("%s, %d x %d x %s", c.Layout, c.Groups, c.Drives/c.Groups, string(drive))
	}
	switch c.HotSpares {
	case 0:
		return text
	case 1:
		return text + ", hot spare"
	}
	return fmt.Sprintf("%s, %d hot spares", text, c.HotSpares)
}
