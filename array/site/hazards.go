package site

import (
	"arrayodds/array"
	"arrayodds/array/toml"
)

// readHazards reads what reaches beyond the single drive.
func readHazards(t *toml.Table) array.Hazards {
	var h array.Hazards
	if c := t.Child("common_cause"); c != nil {
		c.Number("per_year", toml.Required, toml.Limits{Low: 0, High: 1000}, &h.CommonPerYear)
		c.Quantity("each_drive", toml.Share, toml.Required, toml.Between{Low: "0", High: "1"}, &h.CommonEachDrive)
		c.Done()
	} else if !t.Given("common_cause") {
		t.Note(t.LastOwn(), toml.Join(t.Path, "common_cause"), "none", true)
	}
	t.Number("degraded_multiplier", toml.Default(1), toml.Limits{Low: 1, High: 1000}, &h.DegradedMultiplier)
	t.Done()
	return h
}
