// Package fit writes the page of life laws fitted to a fleet's record: the laws to
// paste into a site file, the share of drives still running by age with the laws over
// it, and the figures.
package fit

import "arrayodds/sim/study"

// fits are the laws of a record as their page draws them.
type fits struct{ study.Fit }
