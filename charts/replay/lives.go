package replay

import "arrayodds/sim/study"

// lives are single lives as their page tells them.
type lives struct{ study.Replay }
