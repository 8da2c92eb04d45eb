package vary

import (
	"arrayodds/sim/study"
)

// sweep is inputs varied, as the page draws them.
type sweep struct{ study.Sweep }
