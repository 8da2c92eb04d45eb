package array

// A Site is everything that is compared: what must be kept, what could be
// bought, and what the place does to it.
type Site struct {
	Name        string
	ServiceLife float64 // hours, above 0
	Cameras     []Cameras
	Drives      []Drive
	Choices     []Choice
	Options     []Option // beside drives, for a search
	Hazards     Hazards
	Growth      float64       // room to grow, as a share of what is needed: 0 or more
	Widths      map[Level]int // drives that a group has at the most by custom; levels left out: as [Layout.Width] has it
	Currency    string        // what sums are in, such as "EUR"; empty: not given
	EnergyPrice float64       // of a kWh, in the site's currency, 0 or more; NaN: energy has no price
	Document    Document      // what pages for a customer carry
	Build       Build         // what a plan asks for
	Goal        *Goal         // what choices are held against; nil: nothing
}

// Cameras is a group of cameras that are set alike.
type Cameras struct {
	Label       string
	Count       int     // cameras, 1 or more
	BitRate     float64 // bit/s of one camera while it records, above 0
	Picture     Picture // what BitRate is estimated from; zero: it is given
	HoursPerDay float64 // above 0, at most 24
	Activity    float64 // share of those hours that is recorded, above 0, at most 1
	Retention   float64 // hours, above 0
}

// A Drive is a drive model of the catalogue, named by its label.
type Drive struct {
	Label            string
	Capacity         float64 // bytes
	Life             Life
	HazardMultiplier float64 // scales the hazard of Life; 1 leaves it
	BatchVariance    float64 // variance v of the frailty of drives that ship together; 0 is none
	ReadErrorBits    float64 // bits read per unrecoverable error; 0 is none
	LatentMean       float64 // hours between latent defects of one drive; 0 is none
	Transfer         float64 // bytes/s, sequential, at the outer track
	Price            float64 // in the site's currency; NaN is not known
	Power            float64 // watts; NaN is not known
	Weight           float64 // kg
	Rated            float64 // bytes a year that it is rated to read and write; 0 is not known
	// Log is what happened to drives of the model at the site, which Life already has in
	// it; nil where the site tells nothing of it.
	Log *Log
}

// A Choice is one thing that could be bought.
type Choice struct {
	Label     string
	Drive     Drive
	Layout    Layout
	Drives    int // in all, hot spares not counted
	Groups    int // as the site file gives it
	HotSpares int
	Batches   int // that the first drives are dealt from in turn; up to 1: all are of one
	Care      Care
	Recorder  *Recorder // nil where the site says nothing of it
}

// Care is how the site looks after an array.
type Care struct {
	Notice          Time    // failure to somebody knowing
	Response        Time    // knowing to the new drive being in
	Restock         Time    // a hot spare's being taken to its being back
	RebuildShare    float64 // share of the rate that the rebuild is given, above 0, at most 1
	RebuildFloor    float64 // bytes/s that the rebuild never falls below
	ControllerLimit float64 // bytes/s; 0 is none
	Parallel        bool    // rebuilds of one group all at once, not one at a time
	Stop            bool    // an unreadable sector without redundancy ends the rebuild, not one stripe
	Scrub           Time    // how long a latent defect stays before a scrub clears it; nil: nothing scrubs
	Restore         Time    // failure to restored, in place of notice, response and rebuild; nil: those count
}

// Hazards reach beyond the single drive.
type Hazards struct {
	CommonPerYear      float64 // common-cause events a year and choice
	CommonEachDrive    float64 // chance that one running drive fails in such an event
	DegradedMultiplier float64 // a survivor's hazard is multiplied by this for each drive that is down
}

// A Recorder is the machine around the drives, as far as it interrupts recording.
type Recorder struct {
	Price      float64 // chassis without drives, in the site's currency; NaN is not known
	Bays       int     // 0 is not known
	Licences   *Licences
	Link       float64 // bit/s of its network link; 0 is not known
	WriteLimit float64 // bytes/s that it can take in; 0 is not known
	IdlePower  float64 // watts; NaN is not known
	Supply     *Part   // power supply; nil: not counted
	SystemDisk *Part
	Mains      *Mains
	SwapDown   float64 // hours powered down for each drive replaced; 0: hot swap

	// What only a plan asks for.
	RackUnits   int     // 0 is not known
	Weight      float64 // kg, without drives; 0 is not known
	Rails       float64 // price, in the site's currency; 0 is not known
	PowerFactor float64 // watts ÷ volt-amperes, above 0, at most 1
	Numbering   Numbering
}

// Licences is what the cameras of a recorder cost, one licence each; nil: nothing.
type Licences struct {
	Included int     // cameras that the recorder's price has in it
	Each     float64 // of the others, in the site's currency
}

// Cost returns what the licences of so many cameras cost.
func (l *Licences) Cost(cameras int) float64 {
	if l == nil {
		return 0
	}
	return l.Each * float64(max(0, cameras-l.Included))
}

// A Part stops the recorder while it is broken, unless a second one carries on.
type Part struct {
	PerYear   float64 // failures a year
	Restore   float64 // hours
	Redundant bool
}

// Mains is the supply of the site. Outages are exponential.
type Mains struct {
	PerYear    float64 // outages a year
	Mean       float64 // hours
	UPSBridges float64 // hours that the battery bridges
}
