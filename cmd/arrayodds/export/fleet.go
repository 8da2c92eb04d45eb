package export

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"arrayodds/sim/estimate"
	"arrayodds/sim/fleet"
)

// fleetJSON writes the answer for a fleet as one object, with every array.
func fleetJSON(w io.Writer, r fleet.Result) error {
	return writeJSON(w, object{
		{"format", formatNumber},
		{"fleet", r.Name},
		{"seed", r.Seed},
		{"sites", r.Sites},
		{"arrays_lost", r.Lost},
		{"arrays_degraded", r.Degraded},
		{"arrays_whole", r.Whole},
		{"expected_losses_30_days", r.Losses},
		{"expected_losses_30_days_of_degraded", r.OfDegraded},
		{"year", yearObject(&r.Year)},
		{"models", list(orEmpty(r.Models), func(m fleet.Model) any {
			return append(object{{"label", m.Label}, {"models_summed_up", m.Others}, {"arrays", m.Arrays}}, yearObject(&m.Year)...)
		})},
		{"replicates", r.Replicates},
		{"notes", orEmpty(r.Notes)},
		{"arrays", list(orEmpty(r.Arrays), standingObject)},
	})
}

func yearObject(y *fleet.Year) object {
	return object{
		{"drives", y.Drives}, {"failures_mean", y.Failures}, {"failures_95", y.Most},
		{"drives_wanted_now", y.Owed}, {"spares_to_have", y.Spares()},
	}
}

func standingObject(s fleet.Standing) any {
	ratioOf, best := any(nil), any(nil)
	if s.Best != nil {
		best, ratioOf = s.Best.Name, ratio(s.Best.Ratio)
	}
	return object{
		{"name", s.Name}, {"site", s.Site}, {"site_file", s.SiteAt}, {"choice", s.Choice}, {"drive", s.Model}, {"drives", s.Drives},
		{"drives_down", orEmpty(s.AreDown)}, {"most_down_in_a_group", s.Down}, {"tolerance", s.Tolerance}, {"lost", s.Lost()},
		{"loss_chance_before_all_run", s.BeforeWhole}, {"loss_chance_30_days", s.Loss},
		{"best_action", best}, {"ratio", ratioOf}, {"loss_chance_30_days_with_it", s.Left()}, {"takes_off", s.TakesOff},
		{"tied_with_the_one_before", s.Tied}, {"advice", s.Advice},
		{"camera_days_at_stake", known(s.CameraDays)},
		{"failures_within_a_year", s.Failures}, {"drives_wanted_now", s.Owed},
		{"trials", s.Lives}, {"warnings", orEmpty(s.Warnings)},
	}
}

// fleetCSV writes one row an array, in the order in which to go.
func fleetCSV(w io.Writer, r fleet.Result) error { return writeCSV(w, standingsSheet(&r)) }

// fleetXLSX writes the arrays, the models of drives and what to know of them.
func fleetXLSX(w io.Writer, r fleet.Result) error {
	return writeXLSX(w, standingsSheet(&r), modelsSheet(&r), aboutFleetSheet(&r))
}

// ranked is an array with its place in the order.
type ranked struct {
	place int
	*fleet.Standing
}

func standingsSheet(r *fleet.Result) sheet {
	var rows []ranked
	for i := range r.Arrays {
		rows = append(rows, ranked{i + 1, &r.Arrays[i]})
	}
	var all columns[ranked]
	all.add("place", "Place", whole, func(s ranked) any { return s.place })
	all.add("array", "Array", wideWords, func(s ranked) any { return s.Name })
	all.add("site", "Site", wideWords, func(s ranked) any { return s.Site })
	all.add("site_file", "Site file", words, func(s ranked) any { return s.SiteAt })
	all.add("choice", "Choice", wideWords, func(s ranked) any { return s.Choice })
	all.add("drive", "Drive", words, func(s ranked) any { return s.Model })
	all.add("drives", "Drives", whole, func(s ranked) any { return s.Drives })
	all.add("drives_down", "Drives down, by number", words, func(s ranked) any { return numbers(s.AreDown) })
	all.add("lost", "Lost already", words, func(s ranked) any { return s.Lost() })
	all.add("stands_more", "Failures that it stands still", whole, func(s ranked) any { return max(0, s.Tolerance-s.Down) })
	all.addEstimate("loss_chance_30_days", "Chance of losing footage within 30 days", chance, func(s ranked) estimate.Estimate { return s.Loss })
	all.addEstimate("loss_chance_before_all_run", "Chance of losing footage before all drives run", chance, func(s ranked) estimate.Estimate { return s.BeforeWhole })
	all.add("do_first", "What to do first", wideWords, func(s ranked) any { return s.Advice })
	all.addEstimate("loss_chance_30_days_with_it", "The chance with what helps most done", chance, func(s ranked) estimate.Estimate { return s.Left() })
	all.addEstimate("takes_off", "What that takes off", chance, func(s ranked) estimate.Estimate { return s.TakesOff })
	all.add("tied_with_the_one_before", "Not told apart from the one before", words, func(s ranked) any { return s.Tied })
	all.add("camera_days_at_stake", "Camera-days that a loss destroys", tenths, func(s ranked) any { return s.CameraDays })
	all.addEstimate("failures_within_a_year", "Drives that fail within a year", hundred, func(s ranked) estimate.Estimate { return s.Failures })
	all.add("drives_wanted_now", "Drives wanted now", whole, func(s ranked) any { return s.Owed })
	all.add("trials", "Lives simulated", whole, func(s ranked) any { return s.Lives })
	all.add("warnings", "Warnings", wideWords, func(s ranked) any { return strings.Join(s.Warnings, "; ") })
	return all.sheet("Arrays", rows)
}

// numbers lists numbers of drives.
func numbers(all []int) string {
	texts := make([]string, len(all))
	for i, n := range all {
		texts[i] = strconv.Itoa(n)
	}
	return strings.Join(texts, " ")
}

func modelsSheet(r *fleet.Result) sheet {
	rows := append([]fleet.Model{}, r.Models...)
	rows = append(rows, fleet.Model{Label: "All", Arrays: len(r.Arrays), Year: r.Year})
	var all columns[fleet.Model]
	all.add("", "Drives", wideWords, func(m fleet.Model) any { return m.ModelName() })
	all.add("", "Arrays", whole, func(m fleet.Model) any { return m.Arrays })
	all.add("", "Drives, number", whole, func(m fleet.Model) any { return m.Drives })
	all.addEstimate("", "Fail within a year, mean", hundred, func(m fleet.Model) estimate.Estimate { return m.Failures })
	all.addEstimate("", "At most, in 95 % of the cases", whole, func(m fleet.Model) estimate.Estimate { return m.Most })
	all.add("", "Wanted now", whole, func(m fleet.Model) any { return m.Owed })
	all.add("", "To have for a year", whole, func(m fleet.Model) any { return m.Most.Value + float64(m.Owed) })
	return all.sheet("Drive models", rows)
}

func aboutFleetSheet(r *fleet.Result) sheet {
	type line struct{ about, text string }
	rows := []line{
		{"Fleet", r.Name},
		{"Size", r.Count()},
		{"How it stands", r.Headline()},
	}
	for _, p := range r.Points() {
		rows = append(rows, line{"To be expected", p})
	}
	rows = append(rows,
		line{"The order", fleet.Order},
		line{"Seed", strconv.FormatUint(r.Seed, 10)},
		line{"The year", fmt.Sprintf("%d simulated years of the whole fleet", r.Replicates)},
		line{"Intervals", "Low and high are the ends of the 95 % interval of the simulation. It says how well the simulation knows its own answer, not how well the assumptions fit the sites."})
	for _, text := range append(fleet.Cautions(), r.Notes...) {
		rows = append(rows, line{"Caution", text})
	}
	var all columns[line]
	all.add("", "About this workbook", wideWords, func(l line) any { return l.about })
	all.add("", "", longWords, func(l line) any { return l.text })
	return all.sheet("About", rows)
}
