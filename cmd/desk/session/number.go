package session

import (
	"encoding/json"
	"math"

	"arrayodds/sim/estimate"
)

// number is a number in JSON; what is not known or infinite is null.
type number float64

// MarshalJSON returns the number as JSON.
func (x number) MarshalJSON() ([]byte, error) {
	if f := float64(x); !math.IsNaN(f) && !math.IsInf(f, 0) {
		return json.Marshal(f)
	}
	return []byte("null"), nil
}

// chance is an estimate with its 95 % interval.
type chance struct {
	Value number `json:"value"`
	Low   number `json:"low"`
	High  number `json:"high"`
}

func chanceOf(e estimate.Estimate) chance {
	return chance{number(e.Value), number(e.Low), number(e.High)}
}

// orEmpty returns a list that is [] in JSON where there is nothing in it.
func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
