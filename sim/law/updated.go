package law

import "arrayodds/array"

func init() {
	// The rate is that at a Gamma variate of 1, as of a field record.
	addLife(func(of array.UpdatedLife, scale float64) (Life, float64) {
		life, _, err := OfLife(of.Of, scale/of.Multiplier.Rate)
		if err != nil {
			return nil, 0 // OfLife says so
		}
		return life, of.Multiplier.Shape
	})
}
