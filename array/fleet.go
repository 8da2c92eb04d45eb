package array

// A Fleet is what a record says of the drives that go by one label: either each
// drive by itself or sums over them.
type Fleet struct {
	Label  string
	Drives []Observed // one a drive, in no particular order; nil where the record gives sums only
	Sums   []Counted  // sums over drives; nil where the record gives each drive
	// Ends is the day on which the watching of each of Drives ended, counted from 1970;
	// nil where the record has no days.
	Ends  []int32
	Notes []string // what the reader had to presume, a sentence each
}

// Observed is the part of a drive's life that was watched. Whatever happened
// before Entered could not have been seen (left truncation), and what happens
// after Hours is not known (right censoring) unless the drive failed there.
type Observed struct {
	Entered float64 // age in hours when watching began, 0 or more
	Hours   float64 // age in hours when it ended, above Entered
	Failed  bool    // it ended by failure
}

// Counted is a sum over drives. From and To are the ages that it covers, in
// years; To is 0 where the record does not tell.
type Counted struct {
	DriveDays float64 // above 0
	Failures  float64 // a whole number, 0 or more
	From, To  float64
}
