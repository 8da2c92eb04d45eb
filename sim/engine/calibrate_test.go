package engine

import "flag"

// Proof takes longer than anybody waits for: make calibrate asks for all of it.
var calibrate = flag.Bool("calibrate", false, "hold intervals against the truth over all settings and seeds, for a quarter of an hour")
