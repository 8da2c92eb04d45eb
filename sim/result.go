package sim

import (
	"math"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// CurvePoint is the chance of a first loss within Years.
type CurvePoint struct {
	Years float64
	estimate.Estimate
}

// MissingByCause is the parts of the missing-clip chance: because of drives, of
// unreadable sectors, of the recorder, and of a ring that is too small.
type MissingByCause struct{ Drives, Unreadable, Recorder, Shortfall estimate.Estimate }

// MissingByRecorder is the parts of [MissingByCause].Recorder: because of the power
// supply, of the system disk, of the mains, and of drives that are replaced with the
// recorder switched off.
type MissingByRecorder struct{ Power, SystemDisk, Mains, Swaps estimate.Estimate }

// LossShare is the share of the loss chance, 0 to 1, that one cause makes.
type LossShare struct {
	Cause model.Cause
	estimate.Estimate
}

// AtBitRate is the figures at another bit rate of the cameras than the likely one:
// recording loads the drives and leaves rebuilds less, and a fuller ring reaches
// back less far.
type AtBitRate struct{ LossChance, MissingClip estimate.Estimate }

// Result is what a run says of one choice. Figures are over the service life unless
// their name says otherwise; those that rest on cameras are zero without them, which
// HasCameras reports.
type Result struct {
	LossChance          estimate.Estimate // at least one group loss in the service life
	LossChanceRetention estimate.Estimate // the same within one retention period set anywhere in it; needs cameras
	AnyLossChance       estimate.Estimate // at least one incident: a group loss or an unreadable sector met
	LossCurve           []CurvePoint      // by the end of each year
	// LossShares is what the loss chance is made of, in the order of [model.Cause], every
	// cause once; values add up to 1. It is nil where no loss was seen.
	LossShares []LossShare

	// MissingClip is the chance that footage that is asked for at a random time of
	// the life, of a random age within its retention, is not there.
	MissingClip    estimate.Estimate // needs cameras, as do the causes
	MissingByCause MissingByCause
	// MissingByRecorder adds up to the part of the recorder.
	MissingByRecorder MissingByRecorder

	LossEvents        estimate.Estimate // mean over the life
	Incidents         estimate.Estimate
	UnreadableStripes estimate.Estimate

	CameraDaysLostPerYear estimate.Estimate // needs cameras, as do the next two
	CameraDaysPerLossHalf estimate.Estimate // median over losses of the camera-days that one loss destroys
	CameraDaysPerLoss95   estimate.Estimate

	UnprotectedHoursPerYear estimate.Estimate // summed over groups
	RebuildsPerYear         estimate.Estimate
	DrivesReplaced          estimate.Estimate // drives failed over the life, mean
	DrivesReplaced95        estimate.Estimate // the number that 95 % of lives do not exceed

	// Record is the 95 % interval of the loss chance that comes of the record
	// behind the life law being short; nil where the law is certain. The
	// intervals of the estimates are the simulation's alone.
	Record *Span

	// AtLowBitRate and AtHighBitRate are the figures at the ends of an estimated
	// bit rate; nil where rates are given.
	AtLowBitRate, AtHighBitRate *AtBitRate

	Exact    *float64 // loss chance by the Markov chain; nil where a law is not exponential
	Textbook *float64 // loss chance by the textbook formula; nil where that has none

	HasCameras       bool
	Trials           int
	Work             int64 // that the trials took, in units of about 100 ns
	Plain            bool  // simulated life by life, without branching
	StoppedBy        engine.StoppedBy
	EffectiveSamples float64  // of the loss chance, see [model.Sums.EffectiveSamples]
	LargestShare     float64  // of the loss chance, see [engine.LargestShare]
	Warnings         []string // why the figures should not be trusted; empty where they can be
}

// TooBusy returns the result of a choice that is too busy to be simulated: stopped
// by its bound, with every estimate unknown and a warning that says why.
func TooBusy(e *engine.BusyError) Result {
	none := estimate.None()
	return Result{
		LossChance: none, LossChanceRetention: none, AnyLossChance: none,
		MissingClip: none, MissingByCause: MissingByCause{none, none, none, none},
		MissingByRecorder: MissingByRecorder{none, none, none, none},
		LossEvents:        none, Incidents: none, UnreadableStripes: none,
		CameraDaysLostPerYear: none, CameraDaysPerLossHalf: none, CameraDaysPerLoss95: none,
		UnprotectedHoursPerYear: none, RebuildsPerYear: none, DrivesReplaced: none, DrivesReplaced95: none,
		StoppedBy: engine.ByBound, EffectiveSamples: math.NaN(), LargestShare: math.NaN(),
		Warnings: []string{"not simulated: " + e.Reason()},
	}
}
