package export

import (
	"io"

	"arrayodds/array"
	"arrayodds/sim/choose"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// chooseJSON writes what choose found: the recommendation, the designs that were compared
// over the doubt as compare writes choices, and every design of the front.
func chooseJSON(w io.Writer, f choose.Found) error {
	name := func(place int) any {
		if place < 0 {
			return nil
		}
		return f.Finalists.Outcomes[place].Choice.Label
	}
	var front []any
	for _, d := range f.Designs {
		if d.Front {
			front = append(front, designObject(d))
		}
	}
	return writeJSON(w, document(f.Site, f.Seed,
		member{"currency", currency(f.Site)},
		member{"recommended", name(f.Recommended)},
		member{"runner_up", name(f.RunnerUp)},
		member{"says", orEmpty(f.Says)},
		member{"designs_searched", len(f.Designs)},
		member{"rounds_began_with", list(orEmpty(f.Begun), func(n int) any { return n })},
		member{"finalists", list(orEmpty(f.Finalists.Outcomes), func(o study.Outcome) any {
			return append(outcomeObject(o, f.Finalists.Doubt, f.Site), member{"options", optionLabels(o.Options)})
		})},
		member{"front", orEmpty(front)},
		member{"today", f.Today},
		member{"next_money", list(orEmpty(f.Next), func(n choose.NextMoney) any {
			return object{{"label", n.Label}, {"cost", n.Cost}, {"spared_of_10000", n.Spared}, {"per_100", bounded(n.Per100())}, {"ratio", ratio(n.Ratio)}}
		})},
	))
}

func designObject(d choose.Design) object {
	return object{
		{"label", d.Choice.Label},
		{"layout", d.Choice.Layout.String()}, {"drive", d.Choice.Drive.Label}, {"drives", d.Choice.Drives}, {"groups", d.Choice.Groups}, {"hot_spares", d.Choice.HotSpares},
		{"options", optionLabels(d.Options)}, {"customary_width", d.Customary},
		{"purchase_cost", known(d.Sizing.Purchase)}, {"cost_of_life", known(d.Cost)},
		{"loss_chance", d.Loss}, {"missing_clip_chance", d.Missing}, {"trials", d.Trials},
	}
}

func optionLabels(options []array.Option) []string {
	labels := []string{}
	for _, o := range options {
		labels = append(labels, o.Label)
	}
	return labels
}

// chooseCSV writes one row a design, the cheapest first.
func chooseCSV(w io.Writer, f choose.Found) error {
	var all columns[choose.Design]
	all.add("design", "Design", wideWords, func(d choose.Design) any { return d.Choice.Label })
	all.add("layout", "Layout", words, func(d choose.Design) any { return d.Choice.Layout.String() })
	all.add("drive", "Drive", wideWords, func(d choose.Design) any { return d.Choice.Drive.Label })
	all.add("drives", "Drives, hot spares not counted", whole, func(d choose.Design) any { return d.Choice.Drives })
	all.add("groups", "Groups", whole, func(d choose.Design) any { return d.Choice.Groups })
	all.add("hot_spares", "Hot spares", whole, func(d choose.Design) any { return d.Choice.HotSpares })
	all.add("front", "Nothing is cheaper and safer", words, func(d choose.Design) any { return d.Front })
	all.add("purchase_cost", "Purchase", whole, func(d choose.Design) any { return d.Sizing.Purchase })
	all.add("cost_of_life", "Cost of the service life", whole, func(d choose.Design) any { return d.Cost })
	all.addEstimate("loss_chance", "Chance of losing a group, as entered", chance, func(d choose.Design) estimate.Estimate { return d.Loss })
	all.addEstimate("missing_clip_chance", "Chance that a clip is missing, as entered", chance, func(d choose.Design) estimate.Estimate { return d.Missing })
	all.add("trials", "Trials", whole, func(d choose.Design) any { return d.Trials })
	return writeCSV(w, all.sheet("Designs", f.Designs))
}
