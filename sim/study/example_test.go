package study_test

import (
	"context"
	"fmt"
	"log"
	"strings"

	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

const quay = `
service_life = "5 y"

[[drives]]
label = "12 TB"
capacity = "12 TB"
life = { afr = "1.5 %" }
transfer = "210 MB/s"

[[choices]]
label = "single parity"
drive = "12 TB"
layout = "RAID 5"
drives = 7

[[choices]]
label = "double parity"
drive = "12 TB"
layout = "RAID 6"
drives = 8
`

// The chance of losing footage within the service life, choice by choice.
func ExampleCompare() {
	source, err := axis.Open(strings.NewReader(quay), "quay.toml")
	if err != nil {
		log.Fatal(err)
	}
	found, err := study.Compare(context.Background(), study.Request{
		Source:  source,
		Choices: []int{0, 1},
		Options: engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6},
	}, sim.Run)
	if err != nil {
		log.Fatal(err)
	}
	for _, o := range found.Outcomes {
		fmt.Printf("%s: %s\n", o.Choice.Label, figure.Odds(o.Result.LossChance))
	}
	// Output:
	// single parity: 1 in 2 760
	// double parity: 1 in 5.97 million
}

// The loss chance at other response times, and its ratio to that of the site as it
// stands.
func ExampleVary() {
	source, err := axis.Open(strings.NewReader(quay), "quay.toml")
	if err != nil {
		log.Fatal(err)
	}
	response, err := source.Axis("care.response=4 h,24 h,168 h", 3)
	if err != nil {
		log.Fatal(err)
	}
	found, err := study.Vary(context.Background(), study.Variation{
		Request: study.Request{
			Source:  source,
			Choices: []int{1},
			Options: engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6},
		},
		Axes:    []*axis.Axis{response},
		Against: -1,
	})
	if err != nil {
		log.Fatal(err)
	}
	for i, p := range found.Curves[0].Points {
		fmt.Printf("response %s: %s, ×%s\n", found.Inputs[0].Texts[i], figure.Odds(p.Loss), figure.Ratio(p.ToOwn))
	}
	// Output:
	// response 4 h: 1 in 12.0 million, ×0.500
	// response 24 h: 1 in 5.98 million, ×1
	// response 168 h: 1 in 610 000, ×9.80
}
