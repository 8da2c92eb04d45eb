package simtest

import "flag"

// Calibrate is whether tests hold intervals against the truth over all settings and
// seeds, and samples against each other at their largest, which takes longer than
// anybody waits for: make calibrate sets its flag. Without it they take a part, and say
// which.
var Calibrate = flag.Bool("calibrate", false, "hold intervals against the truth over all settings and seeds, for half an hour")
