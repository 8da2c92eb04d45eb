package array

// A Goal is what a choice is to reach.
type Goal struct {
	LossChance  float64 // at most, within the service life: above 0, below 1
	MissingClip float64 // at most, of a clip asked for: above 0, below 1; 0: not given
	Budget      float64 // at most, of the whole service life, in the site's currency; 0: not given
}
