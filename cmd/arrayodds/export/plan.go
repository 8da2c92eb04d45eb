package export

import (
	"io"

	"arrayodds/sim/plan"
)

// planJSON writes a plan as one object. Figures that the site file does not give, or that
// there are none of, are null; sentences are as on the page.
func planJSON(w io.Writer, p plan.Plan) error {
	b, pw, c := p.Bays, p.Power, p.Calendar
	var allowance any
	if c.Renew.Goal {
		allowance = c.Allowance
	}
	return writeJSON(w, document(p.Site, p.Seed,
		member{"currency", currency(p.Site)},
		member{"choice", p.Choice.Label},
		member{"loss_chance", p.Result.LossChance},
		member{"parts", object{
			{"lines", list(orEmpty(p.Parts.Lines), func(l plan.Part) any {
				return object{{"name", l.Name}, {"label", l.Label}, {"count", l.Count}, {"each", known(l.Price)}, {"sum", known(l.Sum)}, {"note", l.Note}}
			})},
			{"sum", p.Parts.Sum},
			{"without_price", orEmpty(p.Parts.Unpriced)},
			{"shelf_spares", p.Parts.ShelfSpares},
			{"shelf_enough_share", p.Parts.Enough},
			{"shelf_stretch_hours", p.Parts.Stretch},
			{"shelf_stretches", p.Parts.Stretches},
			{"weight_kg", known(p.Parts.Weight)},
			{"drives_weight_kg", p.Parts.Drives},
			{"rack_units", orNull(p.Parts.Units)},
			{"sentences", []string{p.Parts.WhyShelf, p.Parts.Lifting}},
		}},
		member{"bays", object{
			{"columns", b.Numbering.Columns},
			{"rows", b.Rows},
			{"numbering_guessed", b.Guessed},
			{"bays", list(orEmpty(b.Bays), func(x plan.Bay) any {
				return object{{"number", x.Number}, {"row", x.Row + 1}, {"column", x.Column + 1}, {"used", x.Used}, {"hot_spare", x.Spare}, {"group", orNull(x.Group)}, {"batch", orNull(x.Batch)}}
			})},
			{"batches", b.Batches},
			{"most_of_one_batch_in_a_group", b.MostOfOne},
			{"batch_variance", b.Variance},
			{"loss_chance_one_batch", b.OneBatch},
			{"loss_chance_dealt", b.Dealt},
			{"loss_chance_each_its_own", b.EachItsOwn},
			{"gain", ratio(b.Gain)},
			{"most_gain", ratio(b.MostGain)},
			{"sentences", append(orEmpty(b.Words), b.MixingWords...)},
		}},
		member{"power", object{
			{"watts", known(pw.Watts)},
			{"power_factor", pw.PowerFactor},
			{"volt_amperes", known(pw.VoltAmperes)},
			{"heat_btu_per_hour", known(pw.Heat)},
			{"energy_kwh_per_year", known(pw.KWhPerYear)},
			{"ride_through_hours", pw.RideThrough},
			{"ups_watts", known(pw.RatingW)},
			{"ups_volt_amperes", known(pw.RatingVA)},
			{"battery_watt_hours", known(pw.BatteryWh)},
			{"run_time_hours", known(pw.RunTime)},
			{"run_time_aged_hours", known(pw.AgedRunTime)},
			{"sentences", orEmpty(pw.Words)},
		}},
		member{"settings", list(orEmpty(p.Settings), func(x plan.Setting) any {
			return object{{"topic", x.Topic}, {"name", x.Name}, {"value", orNothing(x.Value)}, {"note", x.Note}}
		})},
		member{"acceptance", list(orEmpty(p.Acceptance), func(x plan.Check) any {
			return object{{"name", x.Name}, {"how", x.How}, {"unit", x.Unit}, {"predicted", known(x.Predicted)}, {"low", known(x.Low)}, {"high", known(x.High)},
				{"text", x.Text}, {"range", x.Range}, {"beyond", x.Beyond}}
		})},
		member{"calendar", object{
			{"allowed_risk_a_year", allowance},
			{"first_year_perhaps_above", orNull(c.Renew.First)},
			{"first_year_surely_above", orNull(c.Renew.Sure)},
			{"years", list(orEmpty(c.Years), func(y plan.Year) any {
				o := object{{"year", y.Number}, {"after_service_life", y.Beyond}, {"failures", y.Failures}, {"failures_95", y.Most}, {"risk", y.Risk}, {"drills", y.Drills}, {"ups_battery", y.Batteries}}
				return o
			})},
			{"regular", list(orEmpty(c.Regular), func(d plan.Duty) any { return object{{"what", d.What}, {"when", d.When}} })},
			{"sentences", orEmpty(c.Words)},
		}},
		member{"taken", orEmpty(p.Took)},
		member{"warnings", orEmpty(p.Warnings)},
	))
}

// orNothing returns a text, null where it is empty.
func orNothing(text string) any {
	if text == "" {
		return nil
	}
	return text
}
