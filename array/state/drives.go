package state

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// readDrives reads what is known of single drives into those of a choice; both are nil
// where the choice is not known.
func readDrives(t *toml.Table, c *array.Choice, drives []array.DriveState) {
	given := map[int]int{}     // lines by number
	rebuilds := map[int]bool{} // by group
	for i, n := range t.Children("drives") {
		o := t.Table(n, fmt.Sprintf("drives %d", i+1), "drives")
		number := 0
		o.Count("number", &number)
		d := array.DriveState{Age: math.NaN(), DownFor: math.NaN(), RebuiltFor: math.NaN()}
		inRange := number > 0 && (c == nil || number <= c.Drives)
		switch {
		case number == 0:
		case !inRange:
			o.Wrong("number", fmt.Sprint(number), fmt.Sprintf("1 to %d, the drives of %s", c.Drives, unit.Quote(c.Label)), "")
		case given[number] > 0:
			o.Wrong("number", fmt.Sprintf("drive %d again", number), fmt.Sprintf("each drive once; %s has it too", o.LineName(given[number])), "")
			inRange = false
		default:
			given[number] = o.LineOf("number")
		}
		if inRange && drives != nil {
			d = drives[number-1]
		}
		readDriveState(o, &d)
		o.Done()
		if !inRange || drives == nil {
			continue
		}
		drives[number-1] = d
		if !d.Rebuilding || c.Care.Parallel {
			continue
		}
		shape, err := c.Layout.Shape(c.Drives, c.Groups)
		if err != nil {
			continue
		}
		g := (number - 1) / shape.DrivesInGroup
		if rebuilds[g] {
			o.Wrong("state", "a second rebuild of its group", `"down", for a rebuild that waits for the first: rebuilds of a group run one at a time here`, "")
		}
		rebuilds[g] = true
	}
}

// readDriveState reads one drive, and judges its times.
func readDriveState(t *toml.Table, d *array.DriveState) {
	t.Text("label", &d.Label)
	t.Quantity("age", &d.Age)
	word, _ := t.Word("state")
	d.Down = word == down || word == rebuilding
	d.Rebuilding = word == rebuilding
	read := map[string]bool{
		"down_for":       t.Quantity("down_for", &d.DownFor),
		"rebuilt":        t.Quantity("rebuilt", &d.Rebuilt),
		"rebuilding_for": t.Quantity("rebuilding_for", &d.RebuiltFor),
	}
	t.Count("defects", &d.Defects)
	if word == "" { // what it is cannot be judged
		return
	}
	if !d.Down && t.Given("down_for") && read["down_for"] {
		t.Wrong("down_for", t.Written("down_for", ""), `none, or state = "down": this drive runs`, "")
	}
	for _, key := range []string{"rebuilt", "rebuilding_for"} {
		if !d.Rebuilding && t.Given(key) && read[key] {
			t.Wrong(key, t.Written(key, ""), `none, or state = "rebuilding": nothing is rebuilt of a drive that is `+word, "")
		}
	}
	if d.Down && d.Defects > 0 {
		t.Wrong("defects", fmt.Sprint(d.Defects), "none: of a drive that is "+word+" nothing is read", "")
	}
	if d.Down && known(d.DownFor) && known(d.Age) && d.DownFor > d.Age {
		t.Wrong("down_for", t.Written("down_for", ""), "at most its age, "+unit.FormatHours(d.Age), "")
	}
	if d.Rebuilding && known(d.RebuiltFor) && known(d.DownFor) && d.RebuiltFor > d.DownFor {
		t.Wrong("rebuilding_for", t.Written("rebuilding_for", ""), "at most down_for, "+unit.FormatHours(d.DownFor)+": a rebuild begins after the failure", "")
	}
}
