package print

import (
	"fmt"
	"io"
	"math"
	"strings"

	"arrayodds/array/unit"
	"arrayodds/sim/figure"
	"arrayodds/sim/plan"
)

// Plan writes the parts with what they cost, and in a line or two each what the other
// sheets say.
func Plan(w io.Writer, p plan.Plan) error {
	parts := []string{rewrapped(title(p.Site)), narrow("%q: %s.", plain(p.Choice.Label), planned(p))}
	parts = append(parts, updates(narrowColumns, p.Site, p.Choice)...)
	var rows [][]string
	for _, l := range p.Parts.Lines {
		name := l.Name
		if l.Label != "" {
			name += ", " + plain(l.Label)
		}
		rows = append(rows, []string{name, whole(l.Count), money(l.Price), money(l.Sum)})
	}
	parts = append(parts, shortRule(layOut([]column{{"part", 36}, {"number", 0}, {"each", 0}, {cost(p.Site.Currency), 0}}, rows)))
	sum := "Nothing of it has a price in the site file."
	if p.Parts.Priced {
		sum = fmt.Sprintf("In all %s", typed(figure.Money(p.Parts.Sum, plain(p.Site.Currency))))
		if len(p.Parts.Unpriced) > 0 {
			sum += ", without what has no price"
		}
		sum += "."
	}
	parts = append(parts, narrow("%s", sum), narrow("%s", p.Parts.WhyShelf))
	if !math.IsNaN(p.Power.Watts) {
		parts = append(parts, narrow("Power: %s W, %s BTU/h.", size(p.Power.Watts), size(p.Power.Heat)))
	}
	for _, text := range p.Bays.MixingWords {
		if strings.HasPrefix(text, "So spreading") {
			parts = append(parts, narrow("Batches: %s", lowerFirst(text)))
		}
	}
	for _, c := range p.Acceptance {
		parts = append(parts, narrow("[ ] %s: %s. Range: %s.", c.Name, c.Text, c.Range))
	}
	for _, text := range p.Calendar.Words {
		parts = append(parts, narrow("%s", text))
	}
	for _, text := range p.Warnings {
		parts = append(parts, narrow("! %s", plain(text)))
	}
	_, err := io.WriteString(w, typed(strings.Join(parts, "\n")))
	return err
}

// planned returns what a choice is and how safe, in a line.
func planned(p plan.Plan) string {
	text := fmt.Sprintf("%s as %s", figure.Drives(p.Choice.Drives, p.Sizing.Shape.Groups()), p.Choice.Layout)
	if p.Choice.HotSpares > 0 {
		text += ", " + figure.Count(p.Choice.HotSpares, "hot spare", "hot spares")
	}
	r := p.Result
	text += fmt.Sprintf("; chance of losing footage in %s: %s", years(p.Site.ServiceLife), figure.Odds(r.LossChance))
	if r.LossChance.High > r.LossChance.Low && r.LossChance.Value > 0 {
		text += " (95 %: " + figure.OddsInterval(r.LossChance) + ")"
	}
	if p.Sizing.RebuildRun > 0 && p.Choice.Care.Restore == nil {
		text += "; a rebuild takes " + unit.FormatHours(p.Sizing.RebuildRun)
	}
	return text
}

// lowerFirst returns a sentence to stand behind a colon.
func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }
