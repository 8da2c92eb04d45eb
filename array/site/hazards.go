package site

import "arrayodds/array"

// hazards reads what reaches beyond the single drive.
func (t *table) hazards() array.Hazards {
	var h array.Hazards
	if c := t.child("common_cause"); c != nil {
		c.number("per_year", required, limits{0, 1000}, &h.CommonPerYear)
		c.quantity("each_drive", aShare, required, between{"0", "1"}, &h.CommonEachDrive)
		c.done()
	} else if !t.given("common_cause") {
		t.note(t.lastOwn(), path(t.path, "common_cause"), "none", true)
	}
	t.number("degraded_multiplier", standard(1), limits{1, 1000}, &h.DegradedMultiplier)
	t.done()
	return h
}
