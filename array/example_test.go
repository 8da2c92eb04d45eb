package array_test

import (
	"fmt"

	"arrayodds/array"
)

// A layout is read by its name and laid over drives.
func ExampleLayout_Shape() {
	layout, err := array.ParseLayout("raid-60")
	if err != nil {
		fmt.Println(err)
		return
	}
	shape, err := layout.Shape(12, 2)
	fmt.Println(layout, shape.Groups(), "groups of", shape.DrivesInGroup, "that survive", shape.Tolerance, "failures each;", shape.UsableDrives(), "drives of footage", err)

	_, err = layout.Shape(13, 2)
	fmt.Println(err)
	// Output:
	// RAID 60 2 groups of 6 that survive 2 failures each; 8 drives of footage <nil>
	// found 13 drives in 2 groups, which do not divide; right would be 12 or 14
}

// A choice of a site is sized: what it holds, and whether that is enough.
func ExampleSite_Size() {
	site := array.Site{
		ServiceLife: 5 * 8760,
		Cameras:     []array.Cameras{{Label: "Quay", Count: 24, BitRate: 6e6, HoursPerDay: 24, Activity: 1, Retention: 30 * 24}},
	}
	drive := array.Drive{Label: "12 TB", Capacity: 12 * array.TB, Transfer: 210e6, Price: 290, Power: 7}
	care := array.Care{RebuildShare: 0.5, RebuildFloor: 20e6}
	for _, drives := range []int{5, 6} {
		choice := array.Choice{Drive: drive, Layout: array.Layout{Level: array.RAID6}, Drives: drives, Groups: 1, Care: care}
		size, err := site.Size(choice)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d drives hold %.0f of %.2f TB, back to %.1f days; enough: %v; one rebuild takes %.0f h\n",
			drives, size.Usable/array.TB, site.Demand().Needed/array.TB, size.Retention/24, size.Meets, size.RebuildRun)
	}
	// Output:
	// 5 drives hold 36 of 46.66 TB, back to 23.1 days; enough: false; one rebuild takes 42 h
	// 6 drives hold 48 of 46.66 TB, back to 30.9 days; enough: true; one rebuild takes 42 h
}

// The fewest drives that hold the footage of a site in a layout.
func ExampleChoice_Fewest() {
	drive := array.Drive{Capacity: 12 * array.TB}
	for _, name := range []string{"RAID 5", "RAID 6", "RAID 10", "6+3"} {
		layout, err := array.ParseLayout(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		if c, ok := (array.Choice{Drive: drive, Layout: layout}).Fewest(100*array.TB, layout.Width()); ok {
			fmt.Printf("%s: %d drives, groups: %d\n", layout, c.Drives, c.Groups)
		}
	}
	// Output:
	// RAID 5: 12 drives, groups: 2
	// RAID 6: 11 drives, groups: 1
	// RAID 10: 18 drives, groups: 3
	// 6+3: 18 drives, groups: 2
}
