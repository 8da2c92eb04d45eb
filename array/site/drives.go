package site

import (
	"math"

	"arrayodds/array"
)

const maxModels = 100

// prices bounds money, in any currency.
var prices = limits{0, 1e12}

// catalogue is the drives by label.
type catalogue struct {
	labels []string
	drives map[string]array.Drive
	lines  labels
	// partial: some model or its label could not be read, so that a label that
	// is not there need not be wrong.
	partial bool
}

// drives reads the drive models.
func (t *table) drives() catalogue {
	all := catalogue{drives: map[string]array.Drive{}, lines: labels{}}
	items := t.children("drives", maxModels)
	t.atLeastOne("drives", "drive model")
	all.partial = t.cut || len(items) == 0
	for i, n := range items {
		d := array.Drive{Price: math.NaN(), Power: math.NaN()}
		m := t.in(n, "", "drives")
		m.label(required, i+1, &d.Label)
		m.quantity("capacity", aSize, required, between{"1 GB", "1 PB"}, &d.Capacity)
		m.life("life", &d.Life)
		m.number("hazard_multiplier", standard(1), limits{0.001, 1000}, &d.HazardMultiplier)
		m.number("batch_variance", standard(0), limits{0, 100}, &d.BatchVariance)
		m.quantityOrNone("read_error", anError, standard("none"), between{"1 in 1e10 bits", "1 in 1e20 bits"}, &d.ReadErrorBits)
		m.latentDefects(&d.LatentMean)
		m.quantity("transfer", aRate, required, between{"1 MB/s", "1 TB/s"}, &d.Transfer)
		m.number("price", absent("not given: no costs"), prices, &d.Price)
		m.quantity("power", aPower, absent("not given"), between{"0 W", "1 kW"}, &d.Power)
		m.done()
		all.lines.add(m, d.Label)
		all.partial = all.partial || d.Label == ""
		if _, twice := all.drives[d.Label]; d.Label != "" && !twice {
			all.labels = append(all.labels, d.Label)
			all.drives[d.Label] = d
		}
	}
	return all
}

// latentDefects reads the mean time between a drive's latent defects.
func (t *table) latentDefects(dst *float64) {
	const key, right = "latent_defects", `"none", or { mean = "9259 h" }, the hours between defects of one drive`
	n := t.ask(key, standard("none"), right)
	switch {
	case n == nil:
	case isNone(n):
		t.tell(key, "none")
	case n.kind == tables:
		in := t.in(n, path(t.path, key), path(t.kind, key))
		in.quiet = true
		if in.quantity("mean", aTime, required, between{"1 h", "1e10 h"}, dst) {
			t.tell(key, "one in "+in.written("mean")+" and drive, on average")
		}
		in.done()
	default:
		t.wrongAt(n, key, n.shown(), right, "")
	}
}
