package plan

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Parts is what is to be bought, and what it weighs and takes.
type Parts struct {
	Lines    []Part
	Sum      float64  // of all that has a price
	Priced   bool     // some part has one
	Unpriced []string // what has none

	ShelfSpares int
	Enough      estimate.Estimate // share of the stretches that begin with a failure in which so many are enough; None: none was seen
	Stretch     float64           // hours of such a stretch
	Stretches   int               // that were simulated
	WhyShelf    string

	Weight  float64 // kg of the recorder with its drives; NaN is not known
	Drives  float64 // kg of the drives in it
	Lifting string
	Heat    float64 // BTU/h; NaN is not known
	Watts   float64 // NaN is not known
	Units   int     // rack units; 0 is not known
}

// Part is one line of the list of parts.
type Part struct {
	Name  string
	Label string // of the site file, that belongs to the name; empty: none
	Count int
	Price float64 // of one; NaN is not known
	Sum   float64 // NaN is not known
	Note  string
	Free  bool // it comes with another part, and has no price of its own
}

// parts lists what is to be bought.
func (p Plan) parts(l lives) Parts {
	c, nan := p.Choice, math.NaN()
	r := c.Recorder
	if r == nil {
		r = &array.Recorder{Price: nan, IdlePower: nan}
	}
	out := Parts{Stretch: l.Stretch, Units: r.RackUnits, Weight: nan, Heat: nan, Watts: nan}
	add := func(part Part) {
		if part.Count == 0 {
			return
		}
		part.Sum = float64(part.Count) * part.Price
		out.Lines = append(out.Lines, part)
		switch {
		case part.Free:
		case math.IsNaN(part.Price):
			out.Unpriced = append(out.Unpriced, part.Name)
		default:
			out.Sum += part.Sum
			out.Priced = true
		}
	}
	bays := "bays not given"
	if r.Bays > 0 {
		bays = figure.Count(r.Bays, "bay", "bays")
	}
	add(Part{Name: "Recorder without drives", Count: 1, Price: r.Price, Note: bays})
	add(Part{Name: "Rails for the rack", Count: 1, Price: orUnknown(r.Rails)})
	add(Part{Name: "Power supplies", Count: supplies(r), Price: nan, Free: true, Note: suppliesNote(r)})
	add(Part{Name: "Drives", Label: c.Drive.Label, Count: c.Drives, Price: c.Drive.Price})
	add(Part{Name: "Hot spares", Label: c.Drive.Label, Count: c.HotSpares, Price: c.Drive.Price, Note: "in the recorder, taken at once"})
	out.ShelfSpares, out.Enough = l.shelf()
	for _, times := range l.Wanted {
		out.Stretches += times
	}
	add(Part{Name: "Shelf spares", Label: c.Drive.Label, Count: out.ShelfSpares, Price: c.Drive.Price, Note: "in a drawer at the site"})
	if licensed := r.Licences; licensed != nil {
		add(Part{Name: "Camera licences", Count: max(0, p.Site.CameraCount()-licensed.Included), Price: licensed.Each,
			Note: fmt.Sprintf("%s, %d included", figure.Count(p.Site.CameraCount(), "camera", "cameras"), licensed.Included)})
	}
	if p.rideThrough() > 0 || p.Site.Build.UPS != nil {
		add(Part{Name: "UPS", Count: 1, Price: nan, Note: "rating: sheet Power"})
	}
	out.WhyShelf = p.whyShelf(out)
	out.Drives = float64(c.Drives+c.HotSpares) * c.Drive.Weight
	if r.Weight > 0 {
		out.Weight = r.Weight + out.Drives
	}
	out.Lifting = p.lifting(r, out)
	out.Watts = p.Sizing.Watts
	if math.IsNaN(r.IdlePower) {
		out.Watts = nan
	}
	out.Heat = array.BTUPerHour(out.Watts)
	return out
}

func orUnknown(x float64) float64 {
	if x == 0 {
		return math.NaN()
	}
	return x
}

// supplies returns the power supplies that the recorder has; 0 where that is not known.
func supplies(r *array.Recorder) int {
	switch {
	case r.Supply == nil:
		return 0
	case r.Supply.Redundant:
		return 2
	}
	return 1
}

func suppliesNote(r *array.Recorder) string {
	if supplies(r) == 2 {
		return "in the recorder's price; either carries all: a cord and a circuit for each"
	}
	return "in the recorder's price"
}

// whyShelf says what the shelf spares are counted by.
func (p Plan) whyShelf(of Parts) string {
	how := fmt.Sprintf("From a failure until a drive ordered for it is on the shelf it is %s (%s to be noticed, %s to come).",
		unit.FormatHours(of.Stretch), unit.FormatHours(of.Stretch-p.Site.Build.Lead), unit.FormatHours(p.Site.Build.Lead))
	if !of.Enough.Known() {
		return how + " No simulated life had a failure; one drive on the shelf is the least."
	}
	return how + fmt.Sprintf(" In %s (95 %%: %s) of %s simulated stretches of that length that begin with a failure, %s enough. Order another as soon as one is taken. The responses that the figures count with hold only while the shelf is not empty.",
		percent(of.Enough.Value), span(of.Enough, percent), figure.Whole(float64(of.Stretches)),
		figure.Count(of.ShelfSpares, "drive on the shelf is", "drives on the shelf are"))
}

// lifting says who lifts what.
func (p Plan) lifting(r *array.Recorder, of Parts) string {
	limit := p.Site.Build.TwoPeopleFrom
	const rules = "Local rules on lifting go before this."
	switch {
	case r.Weight == 0:
		return fmt.Sprintf("The weight of the recorder is not given: weigh it, or ask its maker. From %s on two people lift (common practice, no source). Put the drives in once it is in the rack. %s", kilograms(limit), rules)
	case of.Weight >= limit:
		without := "Put the drives in once it is in the rack: it is lighter without."
		if r.Weight >= limit {
			without = "That holds without its drives too; put them in once it is in the rack."
		}
		return fmt.Sprintf("With its drives it weighs %s: two people lift it, as anything from %s on (common practice, no source). %s %s", kilograms(of.Weight), kilograms(limit), without, rules)
	}
	return fmt.Sprintf("With its drives it weighs %s, below the %s from which two people lift (common practice, no source). %s", kilograms(of.Weight), kilograms(limit), rules)
}
