package print

import (
	"io"
	"math"
	"strings"

	"arrayodds/sim/answer"
	"arrayodds/sim/choose"
	"arrayodds/sim/figure"
)

// Choose writes the recommendation, the designs that were compared over the doubt, and what
// money buys most for the best design of today.
func Choose(w io.Writer, f choose.Found) error {
	cameras := len(f.Site.Cameras) > 0
	says := answer.Of(f.Finalists)
	parts := append([]string{title(f.Site)}, updates(columnsWide, f.Site)...)
	parts = append(parts, section("What to buy", f.Says)...)
	columns := []column{{"design", 26}, {"chance of loss in " + years(f.Site.ServiceLife) + "\nin all, and its spread", 0}}
	if cameras {
		columns = append(columns, column{"clip\nmissing", 0})
	}
	columns = append(columns, column{"to buy\n" + plain(f.Site.Currency), 0}, column{"over the\nlife", 0}, column{"goal", 0})
	var rows [][]string
	for i, o := range f.Finalists.Outcomes {
		all := typed(says.Choices[i].InAll)
		if spread := says.Choices[i].Spread; spread != "" {
			all += "\n" + compact(spread)
		}
		row := []string{plain(o.Choice.Label), all}
		if cameras {
			row = append(row, typed(answer.Odds(answer.MissingRisk(o))))
		}
		goal := "misses"
		if answer.MeetsGoal(f.Finalists, o) {
			goal = "meets"
		}
		if i == f.Recommended {
			goal = "* meets"
		}
		rows = append(rows, append(row, money(o.Sizing.Purchase), money(math.Round(o.CostOfLife(f.Site).Total().Value)), goal))
	}
	parts = append(parts, layOut(columns, rows))
	var begun []string
	for _, n := range f.Begun {
		begun = append(begun, whole(n))
	}
	parts = append(parts, paragraph("Searched %s designs; rounds of the race began with %s; %s were held against the goal over all that is uncertain. The page has the whole front.",
		whole(len(f.Designs)), figure.List(begun), whole(f.Compared)))
	if text := f.NextWords(); text != "" {
		parts = append(parts, paragraph("%s", plain(text)))
	}
	parts = append(parts, section("Left out", says.LeftOut)...)
	parts = append(parts, paragraph("A simulated chance is an estimate under the site file's assumptions. RAID is no backup."))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}
