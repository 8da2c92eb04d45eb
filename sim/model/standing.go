package model

import (
	"math"

	"arrayodds/array"
)

// sameDelivery is how much younger than the oldest drive one may be that is taken to have
// come with it, in hours.
const sameDelivery = 30 * 24.0

// Begin makes lives of the system begin in the state of an array. It must have as many
// drives as the system. Drives at most 30 days younger than the oldest are taken to be of
// one batch, and each of the others to have replaced one of that batch.
//
// Latent defects are taken to have been cleared last when the last scrub ended, where that
// is known, and else when the youngest running drive of the group had been rebuilt.
func (s *System) Begin(st array.State) {
	b := &Start{Phase: st.HourOfWeek, Free: min(st.Spares, s.Spares)}
	for range s.Spares - b.Free {
		b.Returns = append(b.Returns, st.SpareIn)
	}
	oldest := 0.0
	for i := range st.Drives {
		oldest = math.Max(oldest, st.Drives[i].Age)
	}
	failed, hazard := 0, 0.0
	for i := range st.Drives {
		from := &st.Drives[i]
		d := StartDrive{
			Age: from.Age, First: from.Age >= oldest-sameDelivery, Defects: from.Defects,
			Down: from.Down, Rebuilding: from.Rebuilding, Done: from.Rebuilt,
		}
		ran := from.Age
		switch {
		case from.Down && !math.IsNaN(from.DownFor):
			ran = math.Max(0, from.Age-from.DownFor)
		case !d.First:
			ran = oldest - from.Age
		}
		if from.Down || !d.First {
			failed++
		}
		hazard += s.Life.Cumulative(ran)
		if d.Down && !d.Rebuilding {
			d.Wait, d.Respond = st.DriveIn, math.IsNaN(st.TechnicianIn)
			if !d.Respond {
				d.Wait = math.Max(d.Wait, st.TechnicianIn)
			}
		}
		b.Drives = append(b.Drives, d)
	}
	if s.Uncertain > 0 { // the law is that at a variate of 1
		hazard *= s.Uncertain
	}
	b.BatchOf(s.Frailty, failed, hazard)
	for g := range s.Groups() {
		since := math.Inf(1)
		for _, d := range b.Drives[g*s.Drives : (g+1)*s.Drives] {
			if !d.Down {
				since = math.Min(since, d.Age)
			}
		}
		if !math.IsNaN(st.Scrubbed) {
			since = math.Min(since, st.Scrubbed)
		}
		if math.IsInf(since, 1) {
			since = 0
		}
		b.Cleared = append(b.Cleared, since)
	}
	s.Start = b
}
