package rank

import (
	"arrayodds/sim/study"
)

// ranking is ranked inputs, as the page draws them.
type ranking struct{ study.Ranking }
