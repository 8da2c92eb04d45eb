package model

import "math"

// Start is the state in which lives begin, where they do not begin with all drives new.
//
// The rules, beside those of the package:
//
//   - What is known of the drives tells of the batch too: its frailty has the law that
//     is left once it is known how long its drives have run and which of them failed
//     ([Start.BatchOf]). The rate behind a field record, and what a fit leaves open,
//     are a fleet's, of which one array says little: they are drawn as ever.
//   - A failed drive whose rebuild runs has its share done, and the rest to go. Where a
//     law gives the length of a rebuild, the rest is that share of a draw.
//   - A failed drive that nothing is done for yet takes a hot spare if one is free, else
//     waits for as long as is known; where that is not known, for a response from now
//     on: it has been noticed.
//   - A group that is at its tolerance as the life begins has come to it just now, as far
//     as unreadable sectors go: those that are known are met at once, those that are not
//     with the share of the rebuild that is still to be read.
//   - A known defect stays until a rebuild has read its group or its drive fails.
type Start struct {
	Phase   float64      // hour of the week at time zero; NaN for a random one
	Drives  []StartDrive // group by group
	Free    int          // hot spares
	Returns []float64    // hours until each of the others is back; NaN: a restock from now on
	Cleared []float64    // hours since the latent defects of each group were last cleared
	// Shape and Scale are those of the Gamma law of what multiplies the hazards of the
	// first batch; Shape is 0 where nothing does.
	Shape, Scale float64
}

// StartDrive is one place in a group, and the drive in it.
type StartDrive struct {
	Age     float64 // hours; of a drive that is down it counts for nothing
	First   bool    // it is of the batch that all came with
	Defects int     // unreadable sectors that are known
	Down    bool
	// Rebuilding, and the share that is done, 0 to 1.
	Rebuilding bool
	Done       float64
	// Wait is hours until its rebuild can begin, 0 or more, of one that does not rebuild
	// yet and finds no hot spare. With Respond it is at least so long as a response, too.
	Wait    float64
	Respond bool
}

// BatchOf fills in the law of what multiplies the hazards of a batch with frailty of
// that variance, of whose drives so many have failed, while all together went through
// that cumulative hazard, each its own: a Gamma law of shape 1/v and rate 1/v is, after
// d failures in a hazard of H, one of shape 1/v + d and rate 1/v + H (the Gamma law is
// conjugate to a constant rate, of which H is the time).
func (s *Start) BatchOf(variance float64, failed int, hazard float64) {
	s.Shape, s.Scale = 0, 0
	if variance > 0 {
		s.Shape = 1/variance + float64(failed)
		s.Scale = 1 / (1/variance + hazard)
	}
}

// Oldest returns the age of the oldest drive in hours.
func (s *Start) Oldest() (age float64) {
	for i := range s.Drives {
		age = max(age, s.Drives[i].Age)
	}
	return age
}

// Known reports whether any defect is known.
func (s *Start) Known() bool {
	for i := range s.Drives {
		if s.Drives[i].Defects > 0 {
			return true
		}
	}
	return false
}

// Whole reports whether every drive runs.
func (s *Start) Whole() bool {
	for i := range s.Drives {
		if s.Drives[i].Down {
			return false
		}
	}
	return true
}

// MostDown returns the drives that are down in the group that has the most of them, of
// groups of so many drives.
func (s *Start) MostDown(drives int) (most int) {
	for first := 0; first < len(s.Drives); first += drives {
		down := 0
		for _, d := range s.Drives[first : first+drives] {
			if d.Down {
				down++
			}
		}
		most = max(most, down)
	}
	return most
}

// Unread returns the share of a group that its rebuild has still to read, 1 where none
// runs: drives are those of the group.
func Unread(drives []StartDrive) float64 {
	done := 0.0
	for i := range drives {
		if d := &drives[i]; d.Down && d.Rebuilding {
			done = max(done, d.Done)
		}
	}
	return 1 - done
}

// PhaseOr returns the hour of the week at time zero: what is known, or else one that is
// drawn.
func (s *Start) PhaseOr(drawn float64) float64 {
	if s == nil || math.IsNaN(s.Phase) {
		return drawn
	}
	return s.Phase
}

// WithoutScrub takes the scrub of a system away.
func (s *System) WithoutScrub() { s.Scrub, s.settled, s.meanDwell = nil, 0, 0 }
