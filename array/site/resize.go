package site

import (
	"fmt"

	"arrayodds/array"
)

// resized gives a choice the fewest drives that hold the demand.
func (t *table) resized(i int, c *array.Choice, needed float64) {
	fewest, ok := c.Fewest(needed)
	if !ok {
		why := fmt.Sprintf("not even 1 000 drives hold it as %s", c.Layout)
		if needed <= c.Drive.Capacity*array.MaxDrives {
			why = fmt.Sprintf("no number of drives holds it as %s in groups of a usual width", c.Layout)
		}
		t.misfits(i, why)
		return
	}
	c.Drives, c.Groups = fewest.Drives, fewest.Groups
	t.retell("drives", fmt.Sprintf("%d, the fewest that hold the demand", c.Drives))
	t.retell("groups", fmt.Sprint(c.Groups))
}

// misfits puts down why a choice cannot be built. The first reason stays.
func (t *table) misfits(i int, why string) {
	if t.unfit == nil {
		t.unfit = map[int]string{}
	}
	if t.unfit[i] == "" {
		t.unfit[i] = why
	}
}

// retell changes how a value is listed.
func (t *table) retell(key, text string) {
	at := path(t.path, key)
	for i := len(t.notes) - 1; i >= 0; i-- {
		if t.notes[i].Path == at {
			t.notes[i].Text, t.notes[i].Default = text, false
			return
		}
	}
}
