package site

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// resize gives a choice the fewest drives that hold the demand of the site.
func (r *reader) resize(t *toml.Table, i int, c *array.Choice, s array.Site) {
	fewest, ok := c.Fewest(s.Demand().Room, s.Width(c.Layout))
	if !ok {
		r.misfits(i, fmt.Sprintf("not even %s drives hold it as %s", unit.Digits(array.MaxDrives, 4), c.Layout))
		return
	}
	c.Drives, c.Groups = fewest.Drives, fewest.Groups
	t.Renote("drives", fmt.Sprintf("%d, the fewest that hold the demand", c.Drives))
	t.Renote("groups", fmt.Sprint(c.Groups))
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
