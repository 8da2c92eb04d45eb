// Package vary writes the page of one input or two varied over many values.
//
// Of one input it has curves with their bands, or rows where the values are words: the
// loss chance, how many times that of the site file as it stands, and how many times
// that of another choice. What is drawn of a point is a quantity; its scale is one of
// odds or of ratios. Of two inputs it has a map for each choice, with contours, in one
// scale of colours. Where a goal was solved for, a table has the values that meet it.
package vary

import "arrayodds/sim/study"

// sweep is inputs varied, as the page draws them.
type sweep struct{ study.Sweep }
