package export

import (
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// doubtMembers returns the members of one choice that rest on the doubt about the inputs,
// null where it was not worked out.
func doubtMembers(o study.Outcome, of *study.Doubt, cameras bool) []member {
	d := o.Doubt
	if d == nil || of == nil {
		return []member{{"loss_in_all", nil}, {"missing_clip_in_all", nil}, {"doubt", nil}}
	}
	var missing any
	if cameras {
		missing = d.MissingInAll
	}
	return []member{
		{"loss_in_all", d.LossInAll},
		{"missing_clip_in_all", missing},
		{"doubt", object{
			{"low", known(d.Low)}, {"median", known(d.Median)}, {"high", known(d.High)},
			{"settings", of.Settings},
			{"inputs", list(orEmpty(d.Moves), func(m study.Move) any {
				in := of.Inputs[m.Input]
				return object{
					{"path", in.Path}, {"name", in.Called},
					{"low", in.Low}, {"likely", in.Likely}, {"high", in.High}, {"given", in.Given},
					{"factor", known(m.Factor)},
				}
			})},
			{"goal_met", known(d.GoalMet)},
			{"missing_clip_goal_met", known(d.MissingGoalMet)},
		}},
	}
}

// safer returns the share of the settings in which the first of each pair of choices is
// safer than the second, each pair once.
func safer(c study.Comparison) any {
	if c.Doubt == nil {
		return nil
	}
	pairs := []any{}
	for i, row := range c.Doubt.Safer {
		for j := i + 1; j < len(row); j++ {
			if !math.IsNaN(row[j]) {
				pairs = append(pairs, object{{"choice", c.Outcomes[i].Choice.Label}, {"than", c.Outcomes[j].Choice.Label}, {"share", row[j]}})
			}
		}
	}
	return pairs
}

// leftOut returns what the hazards that the file leaves out would do.
func leftOut(c study.Comparison) any {
	if c.Doubt == nil {
		return nil
	}
	return list(orEmpty(c.Doubt.LeftOut), func(l study.LeftOut) any {
		var each []any
		for i, o := range c.Outcomes {
			each = append(each, object{{"choice", o.Choice.Label}, {"loss_chance", l.Chance[i]}, {"factor", ratio(l.Factor[i])}})
		}
		return object{{"key", l.Key}, {"path", l.Path}, {"setting", l.Setting}, {"says", l.Says}, {"matters", l.Matters}, {"choices", each}}
	})
}

// inAll returns the chances over the doubt, not known where it was not worked out.
func inAll(o study.Outcome) study.ChoiceDoubt {
	if o.Doubt != nil {
		return *o.Doubt
	}
	nan := math.NaN()
	return study.ChoiceDoubt{LossInAll: estimate.None(), MissingInAll: estimate.None(), Low: nan, Median: nan, High: nan, GoalMet: nan, MissingGoalMet: nan}
}
