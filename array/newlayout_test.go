package array_test

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/exact"
)

// A layout that is one row more in the table is read by its name, laid over
// drives, sized, suggested, taught and simulated. Not parallel: the table is
// everybody's.
func TestNewLayoutIsOneRow(t *testing.T) {
	level, takeOut := array.AddQuadrupleParity()
	defer takeOut()

	file, err := site.Read(strings.NewReader(`
service_life = "5 y"
[[cameras]]
count = 10
bitrate = "6 Mbit/s"
retention = "30 d"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { mtbf = "20000 h" }
transfer = "200 MB/s"
[[choices]]
label = "made up"
drive = "4 TB"
layout = "Quadruple-Parity"
drives = 16
groups = 2
[care]
restore = { exponential = "200 h" }
`), "made-up.toml")
	if err != nil {
		t.Fatal(err)
	}
	c := file.Site.Choices[0]
	if c.Layout.Level != level || c.Layout.String() != "quadruple parity" {
		t.Fatalf("the layout is read as %v", c.Layout)
	}
	z, err := file.Site.Size(c)
	if want := (array.Shape{Sets: 2, GroupsPerSet: 1, DrivesInGroup: 8, Tolerance: 4, DataInGroup: 4}); err != nil || z.Shape != want {
		t.Errorf("its shape is %+v, %v; want %+v", z.Shape, err, want)
	}
	if _, err := c.Layout.Shape(10, 2); err == nil || !strings.Contains(err.Error(), "at least 6 a group for quadruple parity, 12 in all") {
		t.Errorf("5 drives a group: %v", err)
	}

	// 19.44 TB take 5 drives' worth, and the parity 4 more.
	var found bool
	for _, f := range file.Site.Fit(file.Site.Drives, array.LayoutsToFit(nil), file.Care, nil, 0, 0) {
		if f.Layout == c.Layout {
			found = f.Found && f.Choice.Drives == 9 && f.Choice.Groups == 1
		}
	}
	if !found {
		t.Error("it is not suggested with 9 drives")
	}
	if words := (array.Site{}).WidthWords(); !strings.HasSuffix(words, ", 20 with quadruple parity") {
		t.Errorf("its width is not told: %s", words)
	}
	if ladder := array.RAID5.ParityLevels(); len(ladder) == 0 || ladder[len(ladder)-1] != level || level.Parity() != 4 {
		t.Errorf("it is not above triple parity: %v", ladder)
	}

	// The exact chain of two groups, beyond four standard errors in 1 of 16 000.
	r, err := sim.Run(t.Context(), file.Site, c, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	chain := exact.Chain{Drives: 8, Tolerance: 4, FailurePerHour: 1. / 20000, RestorePerHour: 1. / 200, DegradedFactor: 1}
	want := exact.AnyOf(2, chain.LossBy(file.Site.ServiceLife))
	if off := math.Abs(r.LossChance.Value-want) / (r.LossChance.RelativeError * want); !(off < 4) {
		t.Errorf("its loss chance is %+v, the chain's %g", r.LossChance, want)
	}
}
