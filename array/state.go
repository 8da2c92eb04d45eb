package array

// A State is one array as it stands: what is known of it beside its choice. Times are
// in hours; those of what is to come count from now, those of what was are its length.
type State struct {
	HourOfWeek   float64      // since Monday 00:00, 0 to 168; NaN is not known
	Drives       []DriveState // by number, from 1: the groups one after the other
	Spares       int          // hot spares that are free
	SpareIn      float64      // until those that were taken are back; NaN: as the care says
	TechnicianIn float64      // until somebody can change a drive; NaN: as the care says
	DriveIn      float64      // until a drive to put in is there; 0: it is there
	Scrubbed     float64      // since the last scrub ended; NaN is not known
}

// A DriveState is one drive of an array.
type DriveState struct {
	Label      string  // what people call it; empty: its number
	Age        float64 // hours
	Down       bool    // it failed, and is not rebuilt yet
	DownFor    float64 // hours since then; NaN is not known
	Rebuilding bool    // its rebuild runs; it is Down
	Rebuilt    float64 // share of the rebuild that is done, 0 to 1
	RebuiltFor float64 // hours that the rebuild has run; NaN is not known
	Defects    int     // unreadable sectors that are known
}

// Down returns the numbers of the drives that are down, from 1.
func (s State) Down() (numbers []int) {
	for i := range s.Drives {
		if s.Drives[i].Down {
			numbers = append(numbers, i+1)
		}
	}
	return numbers
}

// Waiting returns how many drives are down and not rebuilding.
func (s State) Waiting() (n int) {
	for i := range s.Drives {
		if d := &s.Drives[i]; d.Down && !d.Rebuilding {
			n++
		}
	}
	return n
}

// Defects returns how many unreadable sectors are known.
func (s State) Defects() (n int) {
	for i := range s.Drives {
		n += s.Drives[i].Defects
	}
	return n
}

// MostDown returns how many drives are down in the group that has most of them.
func (s State) MostDown(shape Shape) (most int) {
	for first := 0; first+shape.DrivesInGroup <= len(s.Drives); first += shape.DrivesInGroup {
		down := 0
		for _, d := range s.Drives[first : first+shape.DrivesInGroup] {
			if d.Down {
				down++
			}
		}
		most = max(most, down)
	}
	return most
}
