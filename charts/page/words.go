package page

import (
	"fmt"

	"arrayodds/array/label"
	"arrayodds/sim/figure"
)

// MethodOf says how the figures came about.
func MethodOf(seed uint64, accuracy float64) string {
	return fmt.Sprintf("Simulated by forced branching, seed %d, to a 95 %% half-width of %s %% of each loss chance or until the budget of trials was used up. The same seed gives the same digits.",
		seed, figure.Exact(100*accuracy))
}

// OneLines makes texts safe to set, each in a line.
func OneLines(texts []string) []string {
	var out []string
	for _, t := range texts {
		out = append(out, label.OneLine(t))
	}
	return out
}
