package array

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/array/unit"
)

// A Sizing is what a choice is before chance comes in. Figures that rest on
// something the site does not give are NaN; those on cameras are NaN without
// cameras.
type Sizing struct {
	Shape      Shape
	Usable     float64   // bytes
	Meets      bool      // holds all that is due and the room to grow; true without cameras
	Retention  float64   // hours, as PossibleRetention
	Held       []float64 // hours, of each camera group, as RetentionByGroup
	Purchase   float64   // drives, hot spares, licences and, where its price is given, the recorder
	Watts      float64   // drives, hot spares and, where it is given, the idle recorder
	BaysUsed   int       // drives and hot spares
	RebuildRun float64   // hours of one rebuild; 0 where nothing is rebuilt
	CameraDays float64   // footage held when full: cameras × the days that each reaches back

	// AtLow and AtHigh are the ends of the range where bit rates are estimated;
	// without estimates both are what Meets and Retention say.
	AtLow, AtHigh Bound
}

// A Bound is how a choice fares at one end of an estimated demand.
type Bound struct {
	Needed    float64 // bytes; 0 without cameras
	Meets     bool
	Retention float64 // hours, as PossibleRetention; NaN without cameras
}

func (s Site) bound(usable float64) Bound {
	if len(s.Cameras) == 0 {
		return Bound{Meets: true, Retention: math.NaN()}
	}
	demand := s.Demand()
	return Bound{Needed: demand.Needed, Meets: usable >= demand.Room, Retention: s.PossibleRetention(usable)}
}

// PerUsableTB returns the purchase price of 10^12 usable bytes.
func (z Sizing) PerUsableTB() float64 { return z.Purchase / (z.Usable / TB) }

// PerCameraDay returns the purchase price of a day of one camera's footage kept.
func (z Sizing) PerCameraDay() float64 { return z.Purchase / z.CameraDays }

// EnergyPerYear returns kWh a year: all drives and the idle recorder, all the time.
func (z Sizing) EnergyPerYear() float64 { return z.Watts * unit.HoursPerYear / 1000 }

// EnergyPriced reports whether energy has a price.
func (s Site) EnergyPriced() bool { return !math.IsNaN(s.EnergyPrice) }

// EnergyCost returns what the energy of a choice costs over the service life, in the
// site's currency: 0 where energy has no price, NaN where it has one and the power
// is not known.
func (s Site) EnergyCost(z Sizing) float64 {
	if !s.EnergyPriced() {
		return 0
	}
	return z.EnergyPerYear() * s.ServiceLife / unit.HoursPerYear * s.EnergyPrice
}

// Size works out a choice of the site. The error is a [Misfit], where the
// layout cannot be laid over the drives.
func (s Site) Size(c Choice) (Sizing, error) {
	shape, err := c.Layout.Shape(c.Drives, c.Groups)
	if err != nil {
		return Sizing{}, err
	}
	z := Sizing{
		Shape:     shape,
		Usable:    float64(shape.UsableDrives()) * c.Drive.Capacity,
		Meets:     true,
		Retention: math.NaN(), CameraDays: math.NaN(),
		BaysUsed: c.Drives + c.HotSpares,
		Purchase: float64(c.Drives+c.HotSpares) * c.Drive.Price,
		Watts:    float64(c.Drives+c.HotSpares) * c.Drive.Power,
	}
	if len(s.Cameras) > 0 {
		z.Meets = z.Usable >= s.Demand().Room
		z.Retention = s.PossibleRetention(z.Usable)
		z.Held = s.RetentionByGroup(z.Usable)
		z.CameraDays = 0
		for i, c := range s.Cameras {
			z.CameraDays += float64(c.Count) * z.Held[i] / 24
		}
	}
	z.AtLow, z.AtHigh = s.Lowest().bound(z.Usable), s.Highest().bound(z.Usable)
	if r := c.Recorder; r != nil {
		if !math.IsNaN(r.Price) {
			z.Purchase += r.Price
		}
		z.Purchase += r.Licences.Cost(s.CameraCount())
		if !math.IsNaN(r.IdlePower) {
			z.Watts += r.IdlePower
		}
	}
	if shape.Rebuilds() {
		z.RebuildRun = s.RebuildHours(c, shape)
	}
	return z, nil
}

// MeanOverOuter is the mean transfer over the whole disk ÷ the outer track's
// (common practice, no source).
const MeanOverOuter = 0.75

// RebuildHours returns the length of one rebuild: capacity ÷ rate, where the rate is
// the share that the care gives it of the drive's mean transfer (or of the
// controller's limit), or what the recording of the site leaves of the mean,
// whichever is less, but never less than the floor. Recording loads the usable
// drives of the choice evenly. The care's Restore is not looked at.
func (s Site) RebuildHours(c Choice, shape Shape) float64 {
	mean := MeanOverOuter * c.Drive.Transfer
	limited := mean
	if l := c.Care.ControllerLimit; l > 0 {
		limited = math.Min(limited, l)
	}
	beside := mean - s.Demand().WriteRate/float64(shape.UsableDrives())
	rate := math.Max(c.Care.RebuildFloor, math.Min(limited*c.Care.RebuildShare, beside))
	return c.Drive.Capacity / rate / 3600
}

// GapHoursPerYear returns the hours a year in which the recorder does not record
// for reasons other than the loss of its array. swaps is the drives replaced a
// year. Causes are added up, as if none fell into another's time, and never
// come to more than the year. What is stored is not touched by a gap.
func (r *Recorder) GapHoursPerYear(swaps float64) float64 {
	if r == nil {
		return 0
	}
	supply, systemDisk, mains := r.gaps()
	return math.Min(supply+systemDisk+swaps*r.SwapDown+mains, unit.HoursPerYear)
}

// Gaps returns what [Recorder.GapHoursPerYear] is made of, swaps left out: the hours a
// year that the power supply, the system disk and the mains make. Where they come to
// more than the year, each is its share of that.
func (r *Recorder) Gaps() (supply, systemDisk, mains float64) {
	if r == nil {
		return 0, 0, 0
	}
	supply, systemDisk, mains = r.gaps()
	if sum := supply + systemDisk + mains; sum > unit.HoursPerYear {
		less := unit.HoursPerYear / sum
		return supply * less, systemDisk * less, mains * less
	}
	return supply, systemDisk, mains
}

func (r *Recorder) gaps() (supply, systemDisk, mains float64) {
	if m := r.Mains; m != nil {
		// An exponential outage outlasts the battery with chance exp(−bridge ÷
		// mean), and then by its mean again.
		mains = m.PerYear * m.Mean * elementary.Exp(-m.UPSBridges/m.Mean)
	}
	return r.Supply.downPerYear(), r.SystemDisk.downPerYear(), mains
}

func (u *Part) downPerYear() float64 {
	if u == nil {
		return 0
	}
	down := u.PerYear * u.Restore
	if u.Redundant {
		share := down / unit.HoursPerYear // both at once
		return unit.HoursPerYear * share * share
	}
	return down
}
