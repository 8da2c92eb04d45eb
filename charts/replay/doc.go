// Package replay writes the page of single lives, told drive by drive, with a rebuild
// hour by hour.
//
// A narrator knows one life and speaks of it: the narrative, event by event with what
// follows from each, folded where little happens; time lines bay by bay, of the whole
// life and of the days around a loss; and the footage held. A clock turns hours since
// the start into days and times of day.
//
// A rebuild is worked out beforehand for several drive sizes and waits. The page's own
// script, replay.js, picks among those as sliders move and works nothing out; it also
// has the renderers that only this page draws with.
package replay

import "arrayodds/sim/study"

// lives are single lives as their page tells them.
type lives struct{ study.Replay }
