package study

import "arrayodds/sim/fit"

// Fit is what the page of a fitted record is made of.
type Fit struct {
	Record  string // what it is called
	Form    string // of the record, in words
	Rows    int
	Results []fit.Result // one a label
}
