package export

import (
	"io"

	chartsnow "arrayodds/charts/now"
	"arrayodds/sim/estimate"
	"arrayodds/sim/now"
)

// nowJSON writes the answer for one array as one object.
func nowJSON(w io.Writer, r now.Result) error { return writeJSON(w, nowObject(r)) }

// drillJSON writes the same of a state that was drawn, with its file.
func drillJSON(w io.Writer, d chartsnow.Drill) error {
	return writeJSON(w, append(nowObject(d.Result), member{"state_file", d.File}))
}

func nowObject(r now.Result) object {
	unknown := estimate.None()
	loss, before, median, ninety, not := r.Loss, r.BeforeWhole, unknown, unknown, unknown
	if r.Lost() {
		loss, before = estimate.Exact(1), estimate.Exact(1)
	}
	if r.Whole.Lives > 0 {
		median, ninety, not = r.Whole.Median, r.Whole.Ninety, r.Whole.Not
	}
	return document(r.Site, r.Seed,
		member{"choice", r.Choice.Label},
		member{"drives_down", orEmpty(r.State.Down())},
		member{"most_down_in_a_group", r.Down},
		member{"tolerance", r.Tolerance},
		member{"lost", r.Lost()},
		member{"loss_chance_before_all_run", before},
		member{"loss_chance_30_days", loss},
		member{"exact_loss_chance_30_days", exactLoss(r.Exact)},
		member{"hours_until_all_run", object{
			{"median", ratio(median)}, {"ninety", ratio(ninety)}, {"not_within_30_days", not},
		}},
		member{"loss_curve", list(orEmpty(r.Curve), func(p now.Point) any {
			return append(object{{"hours", p.Hours}}, estimateMembers(p.Loss)...)
		})},
		member{"actions", list(orEmpty(r.Actions), func(a now.Action) any { return actionObject(&a) })},
		member{"together", togetherObject(r.Together)},
		member{"copies", list(orEmpty(r.Copies), copyObject)},
		member{"headline", r.Says.Headline},
		member{"chance", orEmpty(r.Says.Chance)},
		member{"do", orEmpty(r.Says.Do)},
		member{"do_not", orEmpty(r.Says.Dont)},
		member{"notes", orEmpty(r.Says.Notes)},
		member{"warnings", orEmpty(r.Warnings)},
		member{"trials", r.Trials},
		member{"stopped_by", string(r.StoppedBy)},
	)
}

// exactLoss returns the chance by the chain; nil where there is none.
func exactLoss(e *now.Exact) any {
	if e == nil {
		return nil
	}
	return e.Loss
}

func actionObject(a *now.Action) object {
	return object{
		{"name", a.Name}, {"what", a.What}, {"loss_chance_30_days", a.Loss}, {"ratio", ratio(a.Ratio)},
		{"rebuild_hours", a.RebuildHours},
	}
}

func togetherObject(a *now.Action) any {
	if a == nil {
		return nil
	}
	return actionObject(a)
}

func copyObject(c now.Copy) any {
	return object{
		{"cameras", c.Label}, {"days", c.Days}, {"bytes", c.Bytes}, {"bytes_per_second", c.Rate}, {"hours", c.Hours},
		{"loss_chance_before_done", c.Loss}, {"ratio", ratio(c.Ratio)}, {"unreadable_sectors", c.Unreadable},
		{"rebuild_delay_hours", c.Delay}, {"ratio_of_others", ratio(c.Other)},
	}
}
