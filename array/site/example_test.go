package site_test

import (
	"fmt"
	"strings"

	"arrayodds/array/site"
)

const yard = `service_life = "5 y"

[[cameras]]
count = 24
bitrate = "6 Mbit/s"
retention = "30 d"

[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"

[[choices]]
label = "double parity"
drive = "12 TB"
layout = "RAID 6"
drives = 8
`

func ExampleRead() {
	file, err := site.Read(strings.NewReader(yard), "yard.toml")
	if err != nil {
		fmt.Println(err)
		return
	}
	choice := file.Site.Choices[0]
	size, err := file.Site.Size(choice)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %d drives, %.0f TB usable\n", choice.Label, choice.Drives, size.Usable/1e12)
	for _, a := range file.Assumptions {
		if a.Path == "care.response" {
			fmt.Printf("%s: %s, default: %v\n", a.Path, a.Text, a.Default)
		}
	}
	// Output:
	// double parity: 8 drives, 72 TB usable
	// care.response: 24 h, default: true
}

// All that is wrong with a file is found at once.
func ExampleRead_errors() {
	wrong := strings.NewReplacer("12 TB\"\nlife", "12 Tb\"\nlife", "RAID 6", "RIAD 6", "retention", "retension").Replace(yard)
	_, err := site.Read(strings.NewReader(wrong), "yard.toml")
	fmt.Println(err)
	// Output:
	// yard.toml:6: cameras.Cameras 1.retension: found an unknown key; right would be one of activity, bitrate, codec, count, frames_per_second, height, hours_per_day, label, resolution, retention, width (did you mean "retention"?)
	// yard.toml:10: drives.12 TB.capacity: found "12 Tb", with the unit "Tb"; right would be B, kB, MB, GB, TB or PB (powers of 1000), or KiB, MiB, GiB, TiB or PiB (powers of 1024) (did you mean "12 TB"?)
	// yard.toml:17: choices.double parity.layout: found "RIAD 6"; right would be one of JBOD, RAID 0, RAID 1, RAID 10, RAID 5, RAID 6, RAID 50, RAID 60, triple parity, or an erasure code such as "6+3" (did you mean "RAID 6"?)
}

// The table of keys tells what a form to fill in has to know.
func ExampleLookup() {
	k := site.Lookup("drives.capacity")
	low, high := k.Bounds()
	fmt.Println(k.Kind, k.Quantity.Units, k.Limits(), k.Required, low, high)
	fmt.Println(k.Doc)
	for _, form := range site.Lookup("drives.life").Forms {
		fmt.Println(form.Example)
	}
	// Output:
	// quantity [GB TB GiB TiB] 1 GB to 1 PB true 1e+09 1e+15
	// As its datasheet has it.
	// { afr = "1.5 %" }
	// { mtbf = "1000000 h" }
	// { shape = 1.12, scale = "461386 h", min = "0 h" }
	// { afr_by_year = ["2.0 %", "1.2 %"] }
	// { failures = 50, drive_days = 3555491 }
}
