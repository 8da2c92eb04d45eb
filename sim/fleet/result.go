package fleet

import (
	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/now"
)

// Head is how many arrays the head of the order has: those that are told apart as well as
// can be.
const Head = 20

// Array is one array of a fleet.
type Array struct {
	Name   string
	SiteAt string // tells sites apart: the path of the site file
	Site   array.Site
	Choice array.Choice
	State  array.State
}

// Request is a fleet as it stands, and how to simulate it: Accuracy and MaxTrials are those
// of an array at the head of the order.
type Request struct {
	Name    string
	Arrays  []Array
	Notes   []string // of how the fleet was read
	Options engine.Options

	replicates int // of the year; 0: what [yearLives] allow
}

// Result is where to go first, and what is to be expected.
type Result struct {
	Name   string
	Arrays []Standing // in the order in which to go
	Sites  int

	Lost, Degraded, Whole int // arrays of which too many drives are down, some, none

	// Losses is how many of the arrays that are not lost yet are to be expected to lose
	// footage within 30 days, and OfDegraded that of those with drives down.
	Losses, OfDegraded estimate.Estimate

	Year   Year    // of all drives
	Models []Model // by how many failures are to be expected, most first

	Replicates int // of the year
	Lives      int // simulated of all arrays for the chances
	Seed       uint64
	Accuracy   float64
	Notes      []string // of how the fleet was read, and what logs made of its drives
}

// Standing is one array, how it stands and what can be done.
type Standing struct {
	Name, Site, SiteAt, Choice, Model string

	Drives          int
	Down, Tolerance int   // the most down in a group, of which it stands Tolerance
	AreDown         []int // the numbers of the drives that are down
	Alone           bool  // each drive is a group by itself: the loss of one takes nothing else along

	BeforeWhole estimate.Estimate // chance of losing footage before all drives have run again; exactly 0 where none is down
	Loss        estimate.Estimate // within 30 days
	Best        *now.Action       // what helps most; nil where nothing does
	TakesOff    estimate.Estimate // of the loss chance, by Best
	Tied        bool              // not told apart from the one before it
	Advice      string            // what to do, in a few words

	CameraDays float64 // of footage that one loss destroys; NaN without cameras

	Failures estimate.Estimate // drives that fail within a year, on average
	Owed     int               // drives wanted now: those that wait for one, and hot spares that are out

	Lives    int
	Warnings []string
}

// Lost reports whether more drives of a group are down than it stands.
func (s *Standing) Lost() bool { return s.Down > s.Tolerance }

// Year is what a year brings.
type Year struct {
	Drives   int
	Failures estimate.Estimate // mean
	Most     estimate.Estimate // drives that fail in it at the most, in 95 % of the cases
	Owed     int               // drives wanted now
}

// Spares returns how many drives to have for the year: those that are wanted now, and the
// 95 % point of those that fail in it.
func (y *Year) Spares() estimate.Estimate { return y.Most.Plus(float64(y.Owed)) }

// Model is the drives that go by one label.
type Model struct {
	Label  string
	Arrays int
	Year
	Others int // models that are summed up in this one; 0: it is one
}
