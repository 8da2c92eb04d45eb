package site

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// resized gives a choice the fewest drives that hold the demand.
func (t *table) resized(i int, c *array.Choice, needed float64) {
	fewest, ok := c.Fewest(needed)
	if !ok {
		t.misfits(i, fmt.Sprintf("not even %s drives hold it as %s", unit.Digits(array.MaxDrives, 4), c.Layout))
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
