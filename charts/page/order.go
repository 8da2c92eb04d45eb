package page

import (
	"cmp"
	"slices"
)

// Least returns the places, of n, of the most that have the least key, in ascending
// order: what a page has room to draw. Of those with one key the first are kept.
func Least(n, most int, key func(place int) float64) []int {
	var places []int
	for i := range n {
		places = append(places, i)
	}
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(key(a), key(b)) })
	places = places[:min(most, n)]
	slices.Sort(places)
	return places
}
