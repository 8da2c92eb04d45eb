package study

import (
	"context"
	"os"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/engine"
)

// BenchmarkCompare measures how long the comparison of the demo site takes, all
// choices and figures, by one worker; and each choice by itself.
func BenchmarkCompare(b *testing.B) {
	text, err := os.Open("../../testdata/saltmarsh.toml")
	if err != nil {
		b.Fatal(err)
	}
	defer text.Close()
	source, err := axis.Open(text, "saltmarsh.toml")
	if err != nil {
		b.Fatal(err)
	}
	site := source.File().Site
	r := Request{Source: source, Options: engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 20e6, Workers: 1}}
	for i := range site.Choices {
		r.Choices = append(r.Choices, i)
	}
	b.Run("all", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := Compare(context.Background(), r, sim.Run); err != nil {
				b.Fatal(err)
			}
		}
	})
	for _, c := range site.Choices {
		b.Run(c.Label, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				res, err := sim.Run(context.Background(), site, c, r.Options)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(res.Trials), "trials")
			}
		})
	}
}
