package state

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"arrayodds/array"
	"arrayodds/array/toml"
)

// Example returns a commented state file of an array of a choice of so many drives: one
// drive is down.
func Example(choice string, drives int) string {
	return fmt.Sprintf(`# The state of one array, as it stands now. Change what is not so, and ask
#
#   arrayodds now SITE.toml --state THIS.toml
#
# Times have their unit: "90 min", "14 h", "3 d", "2.5 y". What is not known is left
# out, and then what the site file says holds.

# site = "../site.toml"     # seen from this file; only now --fleet asks for it
choice = %s   # the label of the choice that was built
when = "Tue 03:00"          # or 2026-11-24T03:00:00; matters where open hours count
age = "3 y"                 # of every drive that no [[drives]] below gives another

# Who comes, and with what. Without technician_in a response is drawn as the site
# file has it, from now on.
technician_in = "14 h"      # from now until somebody is there who can change a drive
drive_in = "10 h"           # from now until a drive to put in is there; "0 h": it is
# hot_spares = 0            # those that are free now
# spare_in = "3 d"          # from now until those that were taken are back
# scrubbed = "5 d"          # how long ago the last scrub ended

# One [[drives]] for each drive of which more is known. Numbers run from 1 to %d; the
# drives of the first group come first.

[[drives]]
number = %d
label = "bay %d"             # what people call it
state = "down"              # or "rebuilding", or "running"
down_for = "40 min"         # how long ago it failed

# [[drives]]
# number = 2
# state = "rebuilding"
# down_for = "20 h"
# rebuilding_for = "6 h"
# rebuilt = "40 %%"           # the share that is done

[[drives]]
number = 1
age = "0.7 y"               # it was replaced once
defects = 0                 # its sectors that are known to be unreadable
`, quoted(choice), drives, min(3, drives), min(3, drives))
}

// Write returns the state file of a state of an array of a choice.
func Write(choice string, s array.State) string {
	var b strings.Builder
	fmt.Fprintf(&b, "choice = %s\n", quoted(choice))
	if known(s.HourOfWeek) {
		fmt.Fprintf(&b, "when = %s\n", quoted(HourOfWeek(s.HourOfWeek)))
	}
	age := commonAge(s.Drives)
	fmt.Fprintf(&b, "age = %s\n", hours(age))
	fmt.Fprintf(&b, "hot_spares = %d\n", s.Spares)
	for _, t := range []struct {
		key   string
		hours float64
	}{{"spare_in", s.SpareIn}, {"technician_in", s.TechnicianIn}, {"drive_in", s.DriveIn}, {"scrubbed", s.Scrubbed}} {
		if known(t.hours) {
			fmt.Fprintf(&b, "%s = %s\n", t.key, hours(t.hours))
		}
	}
	for i, d := range s.Drives {
		if d.Age == age && !d.Down && d.Defects == 0 && d.Label == "" {
			continue
		}
		fmt.Fprintf(&b, "\n[[drives]]\nnumber = %d\n", i+1)
		if d.Label != "" {
			fmt.Fprintf(&b, "label = %s\n", quoted(d.Label))
		}
		if d.Age != age {
			fmt.Fprintf(&b, "age = %s\n", hours(d.Age))
		}
		switch {
		case d.Rebuilding:
			fmt.Fprintf(&b, "state = %q\nrebuilt = %s\n", rebuilding, number(d.Rebuilt))
		case d.Down:
			fmt.Fprintf(&b, "state = %q\n", down)
		}
		if known(d.DownFor) {
			fmt.Fprintf(&b, "down_for = %s\n", hours(d.DownFor))
		}
		if known(d.RebuiltFor) {
			fmt.Fprintf(&b, "rebuilding_for = %s\n", hours(d.RebuiltFor))
		}
		if d.Defects > 0 {
			fmt.Fprintf(&b, "defects = %d\n", d.Defects)
		}
	}
	return b.String()
}

// commonAge returns the age that most drives have.
func commonAge(drives []array.DriveState) (age float64) {
	times, most := map[float64]int{}, 0
	for _, d := range drives {
		if times[d.Age]++; times[d.Age] > most {
			age, most = d.Age, times[d.Age]
		}
	}
	return age
}

var days = []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}

// HourOfWeek writes an hour of the week, such as "Tue 03:00".
func HourOfWeek(hour float64) string {
	minutes := int(math.Mod(hour, 168) * 60)
	return fmt.Sprintf("%s %02d:%02d", days[minutes/(24*60)], minutes/60%24, minutes%60)
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func hours(h float64) string { return `"` + number(h) + ` h"` }

func quoted(s string) string { return toml.Quote(s) }
