// Package array says what is bought: drives, layouts, choices, how a site looks
// after them, and what its cameras ask of them. It holds values and the sums
// that need no chance; what fails when is for package sim.
//
// # Units
//
// Hours, bytes, bytes/s and bit/s, watts, shares of one. A year is
// [unit.HoursPerYear]; [TB] is 10^12 bytes. Money is in the site's currency. What is
// not known is NaN (prices, watts) or nil (parts of a [Recorder]).
//
// # From cameras to drives
//
// [Site.Demand] adds up what is written and must be kept. [Site.Size] lays a
// [Choice] over its drives and says what it holds, how far back, and what it
// costs; a choice that holds too little is sized all the same, with
// [Sizing].Meets false. [Layout.Shape] is what a layout makes of a number of
// drives: the groups that tolerate failures, and the sets that are lost together.
//
// # Laws
//
// A [Life] is how a drive model fails, a [Time] how long something takes. Both
// are plain descriptions with the words for them: a new one is a type here, its
// mathematics in a file of package sim/law, and its form in package array/site.
//
// # Layouts
//
// A [Level] is a row of one table, which says what tolerates how many failures,
// what is lost together and how wide groups are made. All else that differs
// between layouts follows from it.
package array
