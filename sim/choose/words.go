package choose

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// name returns the label of a finalist.
func (f *Found) name(i int) string { return f.Finalists.Outcomes[i].Choice.Label }

// says writes the recommendation.
func (f *Found) says() {
	a := answer.Of(f.Finalists)
	f.Says = a.Advice
	if f.Recommended >= 0 && f.RunnerUp >= 0 {
		text := fmt.Sprintf("The runner-up is %s: %s.", f.name(f.RunnerUp), a.Choices[f.RunnerUp].Price)
		if fails := a.Choices[f.Recommended].Fails; fails != "" && f.RunnerUp > f.Recommended {
			text += " It wins where the first does not meet the goal. " + fails
		} else if fails := a.Choices[f.RunnerUp].Fails; fails != "" && f.RunnerUp < f.Recommended {
			text += " It is cheaper and would win if it met the goal. " + fails
		}
		f.Says = append(f.Says, text)
	}
}

// NextWords says what money buys most for the best design of today; empty where there is
// nothing to say.
func (f Found) NextWords() string {
	if f.Today == "" || len(f.Next) == 0 {
		return ""
	}
	var all []string
	for _, n := range f.Next[:min(3, len(f.Next))] {
		spared := fmt.Sprintf("%s fewer of %s sites lose footage", figure.Number(answer.Rough(estimate.Exact(n.Spared))), figure.Whole(answer.Class))
		switch {
		case n.Cost <= 0:
			all = append(all, fmt.Sprintf("%s costs nothing and %s", label.Short(n.Label), spared))
		default:
			all = append(all, fmt.Sprintf("%s for %s: %s, %s for each 100", label.Short(n.Label), figure.Money(math.Round(n.Cost), f.Site.Currency), spared, figure.Number(answer.Rough(estimate.Exact(n.Per100())))))
		}
	}
	return fmt.Sprintf("For %s, the best of the file's own choices, money buys most as: %s.", label.Short(f.Today), strings.Join(all, "; "))
}
