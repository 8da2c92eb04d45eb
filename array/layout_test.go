package array

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestShape checks the number of drives, of failures survived and of drives'
// worth of data against the definitions of the levels in the SNIA Common RAID
// Disk Data Format specification and the SNIA dictionary (from memory).
func TestShape(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		layout         string
		drives, groups int
		want           Shape
		usable         int
	}{
		{"JBOD", 5, 1, Shape{5, 1, 1, 0, 1}, 5},
		{"JBOD", 6, 2, Shape{6, 1, 1, 0, 1}, 6},
		{"RAID 0", 4, 1, Shape{1, 1, 4, 0, 4}, 4},
		{"RAID 0", 4, 2, Shape{2, 1, 2, 0, 2}, 4},
		{"RAID 1", 2, 1, Shape{1, 1, 2, 1, 1}, 1},
		{"RAID 1", 3, 1, Shape{1, 1, 3, 2, 1}, 1},
		{"RAID 1", 6, 3, Shape{3, 1, 2, 1, 1}, 3},
		{"RAID 10", 8, 1, Shape{1, 4, 2, 1, 1}, 4},
		{"RAID 10", 8, 2, Shape{2, 2, 2, 1, 1}, 4},
		{"RAID 5", 8, 1, Shape{1, 1, 8, 1, 7}, 7},
		{"RAID 5", 8, 2, Shape{2, 1, 4, 1, 3}, 6},
		{"RAID 6", 8, 1, Shape{1, 1, 8, 2, 6}, 6},
		{"triple parity", 8, 1, Shape{1, 1, 8, 3, 5}, 5},
		{"RAID 50", 12, 3, Shape{1, 3, 4, 1, 3}, 9},
		{"RAID 60", 12, 2, Shape{1, 2, 6, 2, 4}, 8},
		{"6+3", 9, 1, Shape{1, 1, 9, 3, 6}, 6},
		{"6+3", 18, 2, Shape{2, 1, 9, 3, 6}, 12},
	} {
		l, err := ParseLayout(c.layout)
		if err != nil {
			t.Fatal(err)
		}
		got, err := l.Shape(c.drives, c.groups)
		if err != nil {
			t.Errorf("%s of %d in %d: %v", c.layout, c.drives, c.groups, err)
			continue
		}
		if got != c.want || got.UsableDrives() != c.usable {
			t.Errorf("%s of %d in %d is %+v with %d usable, want %+v with %d", c.layout, c.drives, c.groups, got, got.UsableDrives(), c.want, c.usable)
		}
	}
}

func TestShapeRefuses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		layout         string
		drives, groups int
		key, says      string
	}{
		{"RAID 6", 10, 3, "drives", "found 10 drives in 3 groups, which do not divide; right would be 9 or 12"},
		{"RAID 6", 2, 3, "drives", "right would be 3"},
		{"RAID 1", 1, 1, "drives", "found 1 drive a group; right would be at least 2 a group for RAID 1, 2 in all"},
		{"RAID 5", 4, 2, "drives", "at least 3 a group for RAID 5, 6 in all"},
		{"RAID 6", 3, 1, "drives", "at least 4"},
		{"RAID 10", 9, 1, "drives", "odd"},
		{"RAID 50", 6, 1, "groups", "at least 2, since RAID 50 stripes"},
		{"RAID 60", 6, 2, "drives", "at least 4 a group"},
		{"6+3", 8, 1, "drives", "right would be 9, since 6+3 is 9 drives a group"},
		{"6+3", 9, 3, "drives", "right would be 27"},
		{"RAID 1", 20, 1, "drives", "at most 16"},
		{"JBOD", 0, 1, "drives", "at least 1 drive"},
		{"JBOD", 1, 0, "drives", "1 group"},
	} {
		l, err := ParseLayout(c.layout)
		if err != nil {
			t.Fatal(err)
		}
		s, err := l.Shape(c.drives, c.groups)
		var m *Misfit
		if !errors.As(err, &m) {
			t.Errorf("%s of %d in %d is %+v, %v", c.layout, c.drives, c.groups, s, err)
		} else if m.Key != c.key || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s of %d in %d: %s: %v, without %q", c.layout, c.drives, c.groups, m.Key, err, c.says)
		}
	}
}

// Whatever layout can be laid over drives uses each of them once.
func TestShapeUsesEveryDrive(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		l := Layout{Level: Level(rapid.IntRange(int(JBOD), int(Erasure)).Draw(t, "level"))}
		if l.Level == Erasure {
			l.Data, l.Parity = rapid.IntRange(1, 12).Draw(t, "k"), rapid.IntRange(1, 6).Draw(t, "m")
		}
		drives, groups := rapid.IntRange(1, 60).Draw(t, "drives"), rapid.IntRange(1, 6).Draw(t, "groups")
		s, err := l.Shape(drives, groups)
		if err != nil {
			return
		}
		if s.Groups()*s.DrivesInGroup != drives {
			t.Fatalf("%s: %d groups of %d are not %d drives", l, s.Groups(), s.DrivesInGroup, drives)
		}
		if s.DataInGroup+s.Tolerance != s.DrivesInGroup {
			t.Fatalf("%s: data and redundancy of %+v do not make up the group", l, s)
		}
		if s.Rebuilds() != (s.Tolerance > 0) || s.Sets < 1 || s.DataInGroup < 1 {
			t.Fatalf("%s: %+v", l, s)
		}
	})
}

func TestParseLayout(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]Layout{
		"jbod": {Level: JBOD}, "RAID-6": {Level: RAID6}, "raid6": {Level: RAID6}, "Raid_6": {Level: RAID6},
		"raid 10": {Level: RAID10}, " RAID  60 ": {Level: RAID60}, "Triple-Parity": {Level: TripleParity},
		"tripleparity": {Level: TripleParity}, "6+3": {Erasure, 6, 3}, "10 + 4": {Erasure, 10, 4},
	} {
		got, err := ParseLayout(name)
		if err != nil || got != want {
			t.Errorf("%q is %v, %v", name, got, err)
		}
		if again, err := ParseLayout(got.String()); err != nil || again != got {
			t.Errorf("%q is written %q, which is %v, %v", name, got, again, err)
		}
	}
	for _, name := range []string{"", "RAID", "RAID 7", "RAID 1E", "6+", "6+0", "0+3", "-6+3", "6+3+1", "99999+1", "erasure code"} {
		if got, err := ParseLayout(name); err == nil {
			t.Errorf("%q is %v", name, got)
		}
	}
}
