package sim

// Estimate is a figure with its 95 % interval. A closed form has Low = Value =
// High and a RelativeError of 0.
type Estimate struct {
	Value, Low, High float64
	// RelativeError is the standard error ÷ the value. Where the value is 0
	// only because nothing was seen (plain mode), it is 1 and High tells what
	// can still be.
	RelativeError float64
}

// CurvePoint is the chance of a first loss within Years.
type CurvePoint struct {
	Years float64
	Estimate
}

// StoppedBy says what ended a run.
type StoppedBy string

// A run ends when the loss chance is as accurate as asked for, or when its
// budget of trials or of steps is used up first.
const (
	ByAccuracy StoppedBy = "accuracy"
	ByBudget   StoppedBy = "budget"
)

// MissingByCause splits the missing-clip chance.
type MissingByCause struct{ Drives, Unreadable, Recorder, Shortfall Estimate }

// AtBitRate is what a run says at another bit rate of the cameras than the
// likely one: recording loads the drives and leaves rebuilds less, and a fuller
// ring reaches back less far.
type AtBitRate struct{ LossChance, MissingClip Estimate }

// Result is what a run says of one choice. Figures that rest on cameras are
// zero without them; HasCameras says so.
type Result struct {
	LossChance          Estimate // at least one group loss in the service life
	LossChanceRetention Estimate // the same within one retention period set anywhere in it; needs cameras
	AnyLossChance       Estimate // at least one incident: a group loss or an unreadable sector met
	LossCurve           []CurvePoint

	MissingClip    Estimate // needs cameras, as do the causes
	MissingByCause MissingByCause

	LossEvents        Estimate // mean over the life
	Incidents         Estimate
	UnreadableStripes Estimate

	CameraDaysLostPerYear Estimate // needs cameras, as do the next two
	CameraDaysPerLossHalf Estimate // median over losses of the camera-days that one loss destroys
	CameraDaysPerLoss95   Estimate

	UnprotectedHoursPerYear Estimate // summed over groups
	RebuildsPerYear         Estimate
	DrivesReplaced          Estimate // drives failed over the life, mean
	DrivesReplaced95        Estimate // the number that 95 % of lives do not exceed

	// Record is the 95 % interval of the loss chance that comes of the record
	// behind the life law being short; nil where the law is certain. The
	// intervals of the estimates are the simulation's alone.
	Record *Span

	// AtLowBitRate and AtHighBitRate are the figures at the ends of an estimated
	// bit rate; nil where rates are given.
	AtLowBitRate, AtHighBitRate *AtBitRate

	Exact    *float64 // Markov chain, where every law is exponential
	Textbook *float64

	HasCameras       bool
	Trials           int
	StoppedBy        StoppedBy
	EffectiveSamples float64  // (Σy)² ÷ Σy² of the trials' contributions to the loss chance
	LargestShare     float64  // largest trial ÷ the sum
	Warnings         []string // why the figures should not be trusted; empty where they can be
}
