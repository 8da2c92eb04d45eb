// Package size writes the page of a sizing: what the cameras need and how that is made up
// of their groups, every drive in every layout with what it costs, draws and wears, and,
// of what does not fit, what would be enough.
package size

import "arrayodds/sim/sizing"

// sized is a sizing as its page draws it.
type sized struct{ sizing.Suggestions }
