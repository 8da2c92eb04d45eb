package plan

import (
	"fmt"
	"math"

	"arrayodds/array/elementary"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
)

// What a UPS is sized by. Each is common practice, no source.
const (
	loadMargin  = 1.25 // rating ÷ load
	aged        = 0.8  // capacity of a battery at the end of its life ÷ new
	inverterOut = 0.85 // watts out of the inverter ÷ watts out of the battery
)

// Power is what the choice takes from the mains and from a battery.
type Power struct {
	Watts       float64 // NaN is not known
	PowerFactor float64
	VoltAmperes float64 // NaN is not known
	Heat        float64 // BTU/h; NaN is not known
	KWhPerYear  float64
	RideThrough float64 // hours that the site file counts with; 0: none
	RatingW     float64 // the least rating of a UPS, in watts
	RatingVA    float64
	BatteryWh   float64 // the least energy of its battery when new, by the rule
	RunTime     float64 // hours that the stated battery carries the load when new; NaN is not known
	AgedRunTime float64 // the same at the end of its life
	Longer      float64 // share of the mains outages that last longer than the ride-through
	OutOfIt     float64 // such outages a year
	Carries     bool    // the stated UPS is enough, as far as it is known
	Words       []string
}

// rideThrough returns the hours that the UPS is to bridge.
func (p Plan) rideThrough() float64 {
	if r := p.Choice.Recorder; r != nil && r.Mains != nil {
		return r.Mains.UPSBridges
	}
	return 0
}

// power works out what is needed of mains and battery.
func (p Plan) power() Power {
	nan := math.NaN()
	w := Power{Watts: p.Parts.Watts, PowerFactor: 1, RunTime: nan, AgedRunTime: nan, RideThrough: p.rideThrough(), Longer: nan, OutOfIt: nan}
	if r := p.Choice.Recorder; r != nil {
		w.PowerFactor = r.PowerFactor
	}
	w.VoltAmperes = w.Watts / w.PowerFactor
	w.Heat = p.Parts.Heat
	w.KWhPerYear = w.Watts * unit.HoursPerYear / 1000
	w.RatingW, w.RatingVA = loadMargin*w.Watts, loadMargin*w.VoltAmperes
	w.BatteryWh = w.Watts * w.RideThrough / inverterOut / aged
	if r := p.Choice.Recorder; r != nil && r.Mains != nil {
		w.Longer = elementary.Exp(-w.RideThrough / r.Mains.Mean)
		w.OutOfIt = r.Mains.PerYear * w.Longer
	}
	if u := p.Site.Build.UPS; u != nil {
		w.RunTime = u.RunTime(w.Watts)
		w.AgedRunTime = aged * w.RunTime
		w.Carries = (u.Rated == 0 || u.Rated >= w.RatingW) && w.AgedRunTime >= w.RideThrough
	}
	w.Words = p.powerWords(w)
	return w
}

// powerWords says what the figures of the power are and what follows.
func (p Plan) powerWords(w Power) (all []string) {
	say := func(format string, a ...any) { all = append(all, fmt.Sprintf(format, a...)) }
	if math.IsNaN(w.Watts) {
		say("What recorder and drives take is not given in full (recorder.idle_power and the drive's power): measure it while all drives run, and write it here.")
	} else {
		say("%s while all drives run, %s at a power factor of %s; all of it becomes heat, %s. Drives take two to three times as much for some seconds as they start (common practice, no source): have them start one after the other if the recorder can.",
			watts(w.Watts), voltAmperes(w.VoltAmperes), figure.Plain(w.PowerFactor), btu(w.Heat))
	}
	if p.Choice.Recorder != nil && supplies(p.Choice.Recorder) == 2 {
		say("Two supplies, either of which carries all of it: each on a circuit of its own, and one of them on the UPS at the least.")
	}
	switch {
	case w.RideThrough == 0:
		say("No ride-through is asked for (recorder.mains.ups_bridges): a mains outage stops the recording at once, and may lose what was not yet written.")
	case math.IsNaN(w.Watts):
		say("The ride-through that the figures count with is %s.", unit.FormatHours(w.RideThrough))
	default:
		say("For the ride-through of %s that the figures count with: a UPS of at least %s and %s, which is the load and a quarter (common practice, no source), with a battery of at least %s when new: %s × %s ÷ %s for the inverter ÷ %s for an old battery (common practice, no source).",
			unit.FormatHours(w.RideThrough), watts(w.RatingW), voltAmperes(w.RatingVA), wattHours(w.BatteryWh),
			watts(w.Watts), unit.FormatHours(w.RideThrough), figure.Plain(inverterOut), figure.Plain(aged))
	}
	all = append(all, p.upsWords(w)...)
	if !math.IsNaN(w.OutOfIt) && w.RideThrough > 0 {
		say("Of the mains outages %s last longer, %s a year: let the UPS tell the recorder to shut down cleanly before its battery is empty.", percentAbout(w.Longer), figure.Plain(rounded(w.OutOfIt, 2)))
	}
	say("Work on the mains, new circuits and the earthing of the rack are for a licensed electrician.")
	return all
}

// upsWords says whether the UPS that is stated is enough.
func (p Plan) upsWords(w Power) []string {
	u := p.Site.Build.UPS
	switch {
	case u == nil || math.IsNaN(w.Watts):
		return nil
	case math.IsNaN(w.RunTime):
		return []string{"The load is beyond the UPS's table of run times (build.ups): IT IS NOT ENOUGH."}
	}
	text := fmt.Sprintf("By its table of run times the UPS carries this load for %s when new, and for %s at the end of its battery's life (%s of it: common practice, no source)",
		unit.FormatHours(w.RunTime), unit.FormatHours(w.AgedRunTime), percent(aged))
	switch {
	case u.Rated > 0 && u.Rated < w.RatingW:
		text += fmt.Sprintf("; but it is rated for %s, and the load and a quarter is %s: IT IS NOT ENOUGH.", watts(u.Rated), watts(w.RatingW))
	case !w.Carries:
		text += fmt.Sprintf(": IT IS NOT ENOUGH for %s.", unit.FormatHours(w.RideThrough))
	case w.RideThrough == 0:
		text += "."
	default:
		text += fmt.Sprintf(": enough for %s, %s times.", unit.FormatHours(w.RideThrough), figure.Plain(rounded(w.AgedRunTime/w.RideThrough, 2)))
	}
	return []string{text}
}

func watts(x float64) string       { return unit.Digits(rounded(x, 3), 4) + " W" }
func voltAmperes(x float64) string { return unit.Digits(rounded(x, 3), 4) + " VA" }
func wattHours(x float64) string   { return unit.Digits(rounded(x, 3), 4) + " Wh" }
func btu(x float64) string         { return unit.Digits(rounded(x, 3), 4) + " BTU/h" }

// percentAbout returns a share in whole per cent.
func percentAbout(share float64) string { return figure.Plain(math.Round(100*share)) + " %" }
