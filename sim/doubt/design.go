package doubt

import (
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Replicates is the number of independent parts of a design.
const Replicates = 8

// Design returns the settings of each replicate, as points in the unit cube of so many
// inputs: Latin hypercubes, by gonum.
func Design(seed uint64, inputs, settings int) [Replicates][][]float64 {
	var all [Replicates][][]float64
	for r := range all {
		points := mat.NewDense(settings, inputs, nil)
		samplemv.LatinHypercube{
			Q:   distmv.NewUnitUniform(inputs, nil),
			Src: stream.New(seed, designStream+uint64(r)),
		}.Sample(points)
		for k := range settings {
			row := mat.Row(nil, k, points)
			for i, u := range row {
				row[i] = min(max(u, least), 1-least) // laws have no value at 0 and 1
			}
			all[r] = append(all[r], row)
		}
	}
	return all
}

const (
	// designStream sets the streams of designs apart from those of lives.
	designStream = 1 << 62
	least        = 1e-9
)
