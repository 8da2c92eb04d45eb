package array

import (
	"math"

	"arrayodds/array/elementary"
)

// Build is what the building of a choice and its keeping need beside what it is. No
// chance rests on it.
type Build struct {
	Batches       int     // deliveries that the first drives can be had from, 1 or more
	Lead          float64 // hours from ordering a drive for the shelf to having it
	TwoPeopleFrom float64 // kg that two people lift
	DrillEvery    float64 // hours between drills
	BatteryLife   float64 // hours until a UPS's battery is renewed
	AlarmsTo      string  // who gets the alarms; empty: not given
	TimeSource    string  // what sets the recorder's clock; empty: not given
	UPS           *UPS    // nil: none is stated
}

// UPS is what the maker of an uninterruptible supply states.
type UPS struct {
	Rated float64   // watts that it can carry; 0: not given
	Load  []float64 // watts, ascending
	Lasts []float64 // hours that a new battery carries each of these
}

// RunTime returns for how many hours a new battery carries a load in watts: between two
// points of the table along a power of the load, as batteries give less the faster they
// are emptied; below the least load as long as that; NaN above the greatest, or without
// a table.
func (u *UPS) RunTime(watts float64) float64 {
	if u == nil || len(u.Load) == 0 || watts > u.Load[len(u.Load)-1] {
		return math.NaN()
	}
	if watts <= u.Load[0] {
		return u.Lasts[0]
	}
	i := 1
	for u.Load[i] < watts {
		i++
	}
	share := math.Log(watts/u.Load[i-1]) / math.Log(u.Load[i]/u.Load[i-1])
	return u.Lasts[i-1] * elementary.Pow(u.Lasts[i]/u.Lasts[i-1], share)
}

// Numbering is how the bays of a recorder are numbered, seen from the front.
type Numbering struct {
	Columns int  // bays in a row; 0: not given
	Bottom  bool // the first is in the bottom row, else in the top row
	Right   bool // the first is in the right column, else in the left one
	Down    bool // numbers run along columns, else along rows
	From    int  // the number of the first
}

// Rows returns the rows that so many bays take.
func (n Numbering) Rows(bays int) int { return (bays + n.Columns - 1) / n.Columns }

// Place returns the row from the top and the column from the left, counted from 0, of the
// bay that comes at a place of the numbering, counted from 0, of so many bays.
func (n Numbering) Place(at, bays int) (row, column int) {
	rows := n.Rows(bays)
	if n.Down {
		row, column = at%rows, at/rows
	} else {
		row, column = at/n.Columns, at%n.Columns
	}
	if n.Bottom {
		row = rows - 1 - row
	}
	if n.Right {
		column = n.Columns - 1 - column
	}
	return row, column
}
