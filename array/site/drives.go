package site

import (
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site/laws"
	"arrayodds/array/toml"
)

var drivesKey = Key{Path: "drives", Kind: toml.Tables, Most: 100, Item: "drive model", Required: true, Doc: "The drive models to choose from."}

var driveKeys = slices.Concat(
	[]Key{
		{Path: "label", Kind: toml.Text, Required: true, Right: labelRight, Doc: "The model's name, no two alike."},
		{Path: "capacity", Called: "capacity", Kind: toml.Measured, Quantity: toml.Size, Min: "1 GB", Max: "1 PB", Required: true, Doc: "As its datasheet has it."},
	},
	laws.LifeKeys(Key{Path: "life", Called: "life", Kind: toml.SubTable, Required: true, Doc: "The law by which a drive fails."}),
	[]Key{
		{Path: "hazard_multiplier", Called: "multiplier of the failure rate", Kind: toml.Number, Min: "0.001", Max: "1000", Default: "1",
			Doc: "Multiplies the hazard at every age: workload above the rating, heat, rough handling."},
		{Path: "batch_variance", Called: "likeness of drives of one batch", Kind: toml.Number, Min: "0", Max: "100", Default: "0",
			Doc: "The variance of the frailty that drives shipped together share."},
		{Path: "read_error", Called: "bits read for each unreadable sector", Kind: toml.Measured, Quantity: toml.BitsPerError, Min: "1 in 1e10 bits", Max: "1 in 1e20 bits", Default: "none", None: true,
			Doc: "Unrecoverable read errors, as a datasheet has them."},
	},
	toml.Inside(Key{Path: "latent_defects", Called: "time between latent defects", Kind: toml.SubTable, Default: "none", None: true,
		Right: `"none", or { mean = "9259 h" }, the hours between defects of one drive`, Doc: "Sectors that go bad unseen until they are read."}, []Key{
		{Path: "mean", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 h", Max: "1e10 h", Required: true, Doc: "The time between two of one drive, on average."},
	}),
	[]Key{
		{Path: "transfer", Called: "transfer rate", Kind: toml.Measured, Quantity: toml.Rate, Min: "1 MB/s", Max: "1 TB/s", Required: true, Doc: "The sequential rate at the outer track."},
		{Path: "price", Called: "price", Kind: toml.Number, Min: "0", Max: "1e12", Absent: "not given: no costs", Doc: "What one costs, in the site's currency."},
		{Path: "power", Called: "power", Kind: toml.Measured, Quantity: toml.Watts, Min: "0 W", Max: "1 kW", Absent: "not given", Doc: "What one takes while it runs."},
		{Path: "workload", Called: "rated workload", Kind: toml.Measured, Quantity: toml.Workload, Min: "1 GB/y", Max: "1000 PB/y",
			Doc: "What one is rated to read and write in a year; only judged by size."},
		{Path: "weight", Called: "weight", Kind: toml.Measured, Quantity: toml.Mass, Min: "0 kg", Max: "20 kg", Default: "0.7 kg",
			Doc: "What one weighs; only plan asks for it, and the default is common practice, no source."},
	},
)

const labelRight = `a name of its own, such as "12 TB"`

// catalogue is the drives by label.
type catalogue struct {
	labels []string
	drives map[string]array.Drive
	lines  labels
	nodes  map[string]*toml.Node
	// partial: some model or its label could not be read, so that a label that
	// is not there need not be wrong.
	partial bool
}

// readDrives reads the drive models.
func readDrives(t *toml.Table) catalogue {
	all := catalogue{drives: map[string]array.Drive{}, lines: labels{}, nodes: map[string]*toml.Node{}}
	items := t.Children("drives")
	t.AtLeastOne("drives")
	all.partial = t.Cut || len(items) == 0
	for i, n := range items {
		d := array.Drive{Price: math.NaN(), Power: math.NaN()}
		m := t.Table(n, "", "drives")
		m.Label(i+1, &d.Label)
		m.Quantity("capacity", &d.Capacity)
		laws.ReadLife(m, &d.Life)
		m.Number("hazard_multiplier", &d.HazardMultiplier)
		m.Number("batch_variance", &d.BatchVariance)
		m.Quantity("read_error", &d.ReadErrorBits)
		readLatentDefects(m, &d.LatentMean)
		m.Quantity("transfer", &d.Transfer)
		m.Number("price", &d.Price)
		m.Quantity("power", &d.Power)
		m.Quantity("workload", &d.Rated)
		unnoted(m, func() { m.Quantity("weight", &d.Weight) })
		m.Done()
		all.lines.add(m, d.Label)
		all.partial = all.partial || d.Label == ""
		if _, twice := all.drives[d.Label]; d.Label != "" && !twice {
			all.labels = append(all.labels, d.Label)
			all.drives[d.Label], all.nodes[d.Label] = d, n
		}
	}
	return all
}

// readLatentDefects reads the mean time between a drive's latent defects.
func readLatentDefects(t *toml.Table, dst *float64) {
	const key = "latent_defects"
	n := t.Ask(key)
	switch {
	case n == nil:
	case n.IsNone():
		t.NoteValue(key, "none")
	case n.Kind == toml.TableNode:
		in := t.Inner(key, n)
		in.Quiet = true
		if in.Quantity("mean", dst) {
			t.NoteValue(key, "one in "+in.Written("mean", "")+" and drive, on average")
		}
		in.Done()
	default:
		t.WrongAt(n, key, n.Shown(), t.Key(key).Expected(), "")
	}
}
