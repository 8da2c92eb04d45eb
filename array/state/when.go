package state

import (
	"math"
	"time"

	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

const whenRight = `a day and an hour, such as "Tue 03:00", or a date and time, such as 2026-11-24T03:00:00`

// readWhen reads an hour of the week, from Monday 00:00.
func readWhen(t *toml.Table, dst *float64) {
	n := t.Ask("when")
	if n == nil {
		return
	}
	switch n.Kind {
	case toml.DateNode:
		for _, layout := range []string{"2006-01-02T15:04:05", "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02 15:04"} {
			if at, err := time.Parse(layout, n.Text); err == nil {
				day := float64((int(at.Weekday()) + 6) % 7)
				*dst = 24*day + float64(at.Hour()) + float64(at.Minute())/60 + float64(at.Second())/3600
				t.NoteValue("when", n.Text)
				return
			}
		}
	case toml.StringNode:
		if hour, err := unit.ParseHourOfWeek(n.Text); err == nil {
			*dst = hour
			t.NoteValue("when", n.Text)
			return
		}
	}
	t.WrongAt(n, "when", n.Shown(), whenRight, "")
}

// known reports whether a time was given.
func known(hours float64) bool { return !math.IsNaN(hours) }
