package study

import (
	"arrayodds/array"
	"arrayodds/sim/estimate"
)

// A LifeCost is what a choice costs over the service life of a site, in the site's
// currency. NaN is not known.
type LifeCost struct {
	Purchase float64           // drives, hot spares and, where its price is given, the recorder
	Replaced estimate.Estimate // drives bought for those that fail
	Energy   float64           // as [array.Site.EnergyCost] has it: 0 where energy has no price
}

// CostOfLife returns what the choice costs over the service life of the site that it
// was simulated for. Work is not counted, as no site file gives its price.
func (o Outcome) CostOfLife(s array.Site) LifeCost {
	return LifeCost{
		Purchase: o.Sizing.Purchase,
		Replaced: o.Result.DrivesReplaced.Times(o.Choice.Drive.Price),
		Energy:   s.EnergyCost(o.Sizing),
	}
}

// Total returns the sum of the parts, all NaN where one of them is not known. Its
// interval is that of the drives replaced.
func (c LifeCost) Total() estimate.Estimate { return c.Replaced.Plus(c.Purchase + c.Energy) }
