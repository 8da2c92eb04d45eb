package array

import (
	"fmt"
	"math"
	"strings"
)

// TB is the trade's terabyte, 10^12 bytes.
const TB = 1e12

// Recorded returns the share of all hours in which a camera of the group records,
// above 0, at most 1.
func (c Cameras) Recorded() float64 { return c.HoursPerDay * c.Activity / 24 }

// WriteRate returns the group's daily mean in bytes/s.
func (c Cameras) WriteRate() float64 {
	// Multiplied first and divided once, so that round figures stay exact.
	return float64(c.Count) * c.BitRate * c.HoursPerDay * c.Activity / (8 * 24)
}

// Needed returns the bytes that the group's retention takes.
func (c Cameras) Needed() float64 {
	return float64(c.Count) * c.BitRate * c.HoursPerDay * c.Activity * 3600 * c.Retention / (8 * 24)
}

// A Demand is what the cameras ask of the drives.
type Demand struct {
	WriteRate float64 // bytes/s, daily mean
	PeakRate  float64 // bytes/s, every camera recording at once
	Needed    float64 // bytes, for every group's retention; no headroom is added
	Room      float64 // bytes, Needed and the site's room to grow: what is to be held
	Longest   float64 // hours, the longest retention of a group
}

// Demand returns the sum over the camera groups. 1 Mbit/s all day is 10.8 GB a day.
func (s Site) Demand() Demand {
	var d Demand
	for _, c := range s.Cameras {
		d.WriteRate += c.WriteRate()
		d.PeakRate += float64(c.Count) * c.BitRate / 8
		d.Needed += c.Needed()
		d.Longest = math.Max(d.Longest, c.Retention)
	}
	d.Room = d.Needed * (1 + s.Growth)
	return d
}

// GrowthWords says in brackets what the room to grow makes of the need, behind it; empty
// where there is none: " (and 20 % room to grow: 74.2 TB)". terabytes writes a number of
// them.
func (s Site) GrowthWords(terabytes func(float64) string) string {
	if s.Growth == 0 {
		return ""
	}
	return fmt.Sprintf(" (and %s room to grow: %s TB)", strings.Replace(percent(s.Growth, 4), " ", "\u00a0", 1), terabytes(s.Demand().Room/TB))
}

// CameraCount returns the cameras of all groups.
func (s Site) CameraCount() int {
	n := 0
	for _, c := range s.Cameras {
		n += c.Count
	}
	return n
}

// RetentionByGroup returns how far back footage of each camera group reaches, in hours,
// where the drives hold usable bytes. A recorder that runs full overwrites the
// oldest footage of all, whichever camera it is of: so groups keep their own
// retention up to one common age, and the groups that ask for the longest fall
// short first.
func (s Site) RetentionByGroup(usable float64) []float64 {
	held := make([]float64, len(s.Cameras))
	age := s.commonAge(usable)
	for i, c := range s.Cameras {
		held[i] = math.Min(c.Retention, age)
	}
	return held
}

// commonAge returns the age in hours at which a full ring overwrites: +Inf where
// everything due fits.
func (s Site) commonAge(usable float64) float64 {
	if usable >= s.Demand().Needed {
		return math.Inf(1)
	}
	// What is held grows with the age, and bends where a group has all it asks
	// for. Walk the bends upward until the room is used up.
	age, left := 0.0, usable
	for {
		rate, bend := 0.0, math.Inf(1)
		for _, c := range s.Cameras {
			if c.Retention > age {
				rate += c.WriteRate() * 3600
				bend = math.Min(bend, c.Retention)
			}
		}
		if rate == 0 {
			return age
		}
		if need := rate * (bend - age); need < left {
			age, left = bend, left-need
			continue
		}
		return age + left/rate
	}
}

// PossibleRetention returns one figure for the whole choice, in hours. Where room is
// short it is the age at which footage is overwritten. Where there is room to
// spare it is the longest retention times usable ÷ needed: what that group
// would reach if every group's retention were raised in proportion.
func (s Site) PossibleRetention(usable float64) float64 {
	d := s.Demand()
	if usable < d.Needed {
		return s.commonAge(usable)
	}
	return d.Longest * usable / d.Needed
}
