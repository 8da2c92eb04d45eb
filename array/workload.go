package array

import "arrayodds/array/unit"

// A Workload is what one drive of a choice reads and writes in a year, on average, in
// bytes.
type Workload struct {
	Footage  float64 // footage and its parity or copy, written once
	Scrubs   float64 // read by scrubs
	Rebuilds float64 // read and written by rebuilds
}

// Total returns all that is read and written.
func (w Workload) Total() float64 { return w.Footage + w.Scrubs + w.Rebuilds }

// Workload returns what one drive of a choice reads and writes in a year, where a scrub
// reads all of it every so many hours, 0 being never, and a drive fails so many times a
// year. All footage is counted as written once and never read; each rebuild reads as
// many drives as a group has of footage, and writes one. The drives of the choice take
// even shares of it.
func (s Site) Workload(c Choice, shape Shape, scrubHours, failuresPerYear float64) Workload {
	w := Workload{Footage: s.Demand().WriteRate * 3600 * unit.HoursPerYear / float64(shape.UsableDrives())}
	if scrubHours > 0 {
		w.Scrubs = c.Drive.Capacity * unit.HoursPerYear / scrubHours
	}
	if shape.Rebuilds() {
		w.Rebuilds = failuresPerYear * c.Drive.Capacity * float64(shape.DataInGroup+1)
	}
	return w
}
