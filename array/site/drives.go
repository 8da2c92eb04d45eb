package site

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/toml"
)

const maxModels = 100

// prices bounds money, in any currency.
var prices = toml.Limits{Low: 0, High: 1e12}

// catalogue is the drives by label.
type catalogue struct {
	labels []string
	drives map[string]array.Drive
	lines  labels
	// partial: some model or its label could not be read, so that a label that
	// is not there need not be wrong.
	partial bool
}

// readDrives reads the drive models.
func readDrives(t *toml.Table) catalogue {
	all := catalogue{drives: map[string]array.Drive{}, lines: labels{}}
	items := t.Children("drives", maxModels)
	t.AtLeastOne("drives", "drive model")
	all.partial = t.Cut || len(items) == 0
	for i, n := range items {
		d := array.Drive{Price: math.NaN(), Power: math.NaN()}
		m := t.Table(n, "", "drives")
		m.Label(toml.Required, i+1, &d.Label)
		m.Quantity("capacity", toml.Size, toml.Required, toml.Between{Low: "1 GB", High: "1 PB"}, &d.Capacity)
		readLife(m, "life", &d.Life)
		m.Number("hazard_multiplier", toml.Default(1), toml.Limits{Low: 0.001, High: 1000}, &d.HazardMultiplier)
		m.Number("batch_variance", toml.Default(0), toml.Limits{Low: 0, High: 100}, &d.BatchVariance)
		m.QuantityOrNone("read_error", toml.ErrorRate, toml.Default("none"), toml.Between{Low: "1 in 1e10 bits", High: "1 in 1e20 bits"}, &d.ReadErrorBits)
		readLatentDefects(m, &d.LatentMean)
		m.Quantity("transfer", toml.Rate, toml.Required, toml.Between{Low: "1 MB/s", High: "1 TB/s"}, &d.Transfer)
		m.Number("price", toml.Absent("not given: no costs"), prices, &d.Price)
		m.Quantity("power", toml.Power, toml.Absent("not given"), toml.Between{Low: "0 W", High: "1 kW"}, &d.Power)
		m.Done()
		all.lines.add(m, d.Label)
		all.partial = all.partial || d.Label == ""
		if _, twice := all.drives[d.Label]; d.Label != "" && !twice {
			all.labels = append(all.labels, d.Label)
			all.drives[d.Label] = d
		}
	}
	return all
}

// readLatentDefects reads the mean time between a drive's latent defects.
func readLatentDefects(t *toml.Table, dst *float64) {
	const key, right = "latent_defects", `"none", or { mean = "9259 h" }, the hours between defects of one drive`
	n := t.Ask(key, toml.Default("none"), right)
	switch {
	case n == nil:
	case n.IsNone():
		t.NoteValue(key, "none")
	case n.Kind == toml.TableNode:
		in := t.Inner(key, n)
		in.Quiet = true
		if in.Quantity("mean", toml.Time, toml.Required, toml.Between{Low: "1 h", High: "1e10 h"}, dst) {
			t.NoteValue(key, "one in "+in.Written("mean", "")+" and drive, on average")
		}
		in.Done()
	default:
		t.WrongAt(n, key, n.Shown(), right, "")
	}
}
