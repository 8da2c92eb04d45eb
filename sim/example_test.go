package sim_test

import (
	"context"
	"fmt"
	"log"
	"strings"

	"arrayodds/array/site"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/figure"
)

// A gatehouse records two cameras on two mirrored drives.
const gatehouse = `
name = "Gatehouse"
service_life = "5 y"

[[cameras]]
label = "Barrier"
count = 2
bitrate = "4 Mbit/s"
retention = "30 d"

[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = "2 %" }
transfer = "200 MB/s"

[[choices]]
label = "two drives, mirrored"
drive = "4 TB"
layout = "RAID 1"
drives = 2

[care]
response = "24 h"
`

// Run simulates one choice of a site. The same seed gives the same digits for any
// number of workers.
func ExampleRun() {
	file, err := site.Read(strings.NewReader(gatehouse), "gatehouse.toml")
	if err != nil {
		log.Fatal(err)
	}
	choice := file.Site.Choices[0]
	result, err := sim.Run(context.Background(), file.Site, choice, engine.Options{Seed: 1, Accuracy: 0.02, MaxTrials: 1e6})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(choice.Label)
	fmt.Println("loses footage:", figure.Odds(result.LossChance))
	fmt.Println("95 % interval:", figure.OddsInterval(result.LossChance))
	fmt.Println("drives replaced in 5 years:", figure.Number(result.DrivesReplaced))
	fmt.Println("stopped by", result.StoppedBy)
	// Output:
	// two drives, mirrored
	// loses footage: 1 in 55 100
	// 95 % interval: ±0.3 %
	// drives replaced in 5 years: 0.2000
	// stopped by accuracy
}
