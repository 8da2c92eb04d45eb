package compare

import (
	"math"

	"arrayodds/sim/study"
)

// report is a comparison as its page draws it.
type report struct{ study.Comparison }

// hasCameras reports whether anything is asked of the choices but capacity.
func (r report) hasCameras() bool { return len(r.Site.Cameras) > 0 }

// hasPrices reports whether cost can be spoken of: at least one choice has a price.
func (r report) hasPrices() bool {
	for _, o := range r.Outcomes {
		if !math.IsNaN(o.Sizing.Purchase) {
			return true
		}
	}
	return false
}
