package site

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

var recorderKey = Key{Path: "recorder", Kind: toml.SubTable, Absent: "not given: no gaps in recording but those of the drives",
	Doc: "The machine around the drives, as far as it interrupts recording."}

var recorderKeys = slices.Concat(
	[]Key{
		{Path: "price", Called: "price of the recorder", Kind: toml.Number, Min: "0", Max: "1e12", Absent: "not given: not in the costs", Doc: "The chassis without drives, in the site's currency."},
		{Path: "bays", Called: "drive bays", Kind: toml.Whole, Min: "1", Max: "10000", Absent: "not given: not checked", Doc: "Drives that it has room for, hot spares among them."},
	},
	toml.Inside(Key{Path: "licences", Kind: toml.SubTable, Doc: "What its cameras cost, one licence each."}, []Key{
		{Path: "included", Called: "cameras that the recorder's price includes", Kind: toml.Whole, Min: "0", Max: "100000", Default: "0", Doc: "Cameras whose licences come with the recorder."},
		{Path: "each", Called: "price of a camera's licence", Kind: toml.Number, Min: "0", Max: "1e9", Required: true, Doc: "What each of the others costs, in the site's currency."},
	}),
	[]Key{
		{Path: "link", Called: "network link", Kind: toml.Measured, Quantity: toml.BitRate, Min: "1 Mbit/s", Max: "1000 Gbit/s", Absent: "not given: not judged",
			Doc: "Its network link; only judged by size."},
		{Path: "write_limit", Called: "recorder's write limit", Kind: toml.Measured, Quantity: toml.Rate, Min: "100 kB/s", Max: "1 TB/s",
			Doc: "What it can take in from all cameras at once, if that is stated; only judged by size."},
		{Path: "idle_power", Called: "recorder's own power", Kind: toml.Measured, Quantity: toml.Watts, Min: "0 W", Max: "100 kW", Absent: "not given", Doc: "What it takes without drives."},
	},
	partKeys("power", "power supply", "The power supply, without which nothing is recorded.", "redundant", "Whether there are two, of which one is enough."),
	partKeys("system_disk", "system disk", "The drive that the recorder starts from.", "mirrored", "Whether there are two, of which one is enough."),
	toml.Inside(Key{Path: "mains", Kind: toml.SubTable, Absent: noGaps, Doc: "The supply of the site, whose outages are exponential in length."}, []Key{
		{Path: "outages_per_year", Called: "mains outages a year", Kind: toml.Number, Min: "0", Max: "10000", Required: true, Doc: "Outages in a year, on average."},
		{Path: "mean", Called: "mean length of a mains outage", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 s", Max: "1 y", Required: true, Doc: "How long an outage is, on average."},
		{Path: "ups_bridges", Called: "outage that the UPS bridges", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "1 y", Default: "0 h", Doc: "How long a battery carries on."},
	}),
	toml.Inside(Key{Path: "swap", Kind: toml.SubTable, Words: []string{"hot"}, Default: "hot",
		Right: `"hot", or { powered_down = "30 min" }`, Doc: "How a drive is replaced: while the recorder runs, or with it powered down."}, []Key{
		{Path: "powered_down", Called: "time powered down for a drive swap", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "30 d", Required: true,
			Doc: "For how long nothing is recorded, for each drive replaced."},
	}),
	chassisKeys,
)

const noGaps = "not given: no gaps from it"

// partKeys returns the keys of what stops the recorder while it is broken, and is called
// so. doubled is the key of whether there are two of it.
func partKeys(part, called, doc, doubled, doubledDoc string) []Key {
	return toml.Inside(Key{Path: part, Kind: toml.SubTable, Absent: noGaps, Doc: doc}, []Key{
		{Path: "failures_per_year", Called: "failures of the " + called + " a year", Kind: toml.Number, Min: "0", Max: "1000", Required: true, Doc: "Failures in a year, on average."},
		{Path: "restore", Called: "time until the " + called + " works again", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "1 y", Required: true, Doc: "From a failure until it works again."},
		{Path: doubled, Kind: toml.YesNo, Default: "false", Doc: doubledDoc},
	})
}

// freshRecorder returns a recorder of which nothing is known.
func freshRecorder() array.Recorder {
	return array.Recorder{Price: math.NaN(), IdlePower: math.NaN()}
}

// readRecorder reads the machine around the drives. A choice's own table keeps what
// the site's says wherever it is silent.
func readRecorder(t *toml.Table, r *array.Recorder) {
	t.Number("price", &r.Price)
	t.Count("bays", &r.Bays)
	readLicences(t, &r.Licences)
	t.Quantity("link", &r.Link)
	t.Quantity("write_limit", &r.WriteLimit)
	t.Quantity("idle_power", &r.IdlePower)
	readPart(t, "power", "redundant", &r.Supply)
	readPart(t, "system_disk", "mirrored", &r.SystemDisk)
	readMains(t, &r.Mains)
	readSwap(t, &r.SwapDown)
	readChassis(t, r)
	t.Done()
}

// readLicences reads what the cameras of a recorder cost.
func readLicences(t *toml.Table, dst **array.Licences) {
	l := t.Child("licences")
	if l == nil {
		return
	}
	var a array.Licences
	l.Count("included", &a.Included)
	l.Number("each", &a.Each)
	l.Done()
	*dst = &a
}

// readPart reads what stops the recorder while it is broken.
func readPart(t *toml.Table, key, doubled string, dst **array.Part) {
	p := t.Child(key)
	if p == nil {
		return
	}
	var u array.Part
	p.Number("failures_per_year", &u.PerYear)
	p.Quantity("restore", &u.Restore)
	p.Bool(doubled, &u.Redundant)
	p.Done()
	if down := u.PerYear * u.Restore; down > unit.HoursPerYear {
		p.Wrong("failures_per_year", fmt.Sprintf("%s failures of %s, which is %s h a year", p.Written("failures_per_year", ""), p.Written("restore", ""), unit.Digits(down, 4)), "at most the 8 760 h of a year", "")
	}
	*dst = &u
}

func readMains(t *toml.Table, dst **array.Mains) {
	m := t.Child("mains")
	if m == nil {
		return
	}
	var a array.Mains
	m.Number("outages_per_year", &a.PerYear)
	m.Quantity("mean", &a.Mean)
	m.Quantity("ups_bridges", &a.UPSBridges)
	m.Done()
	if down := a.PerYear * a.Mean; down > unit.HoursPerYear {
		m.Wrong("outages_per_year", fmt.Sprintf("%s outages of %s, which is %s h a year", m.Written("outages_per_year", ""), m.Written("mean", ""), unit.Digits(down, 4)), "at most the 8 760 h of a year", "")
	}
	*dst = &a
}

func readSwap(t *toml.Table, dst *float64) {
	const key = "swap"
	n := t.Ask(key)
	switch {
	case n == nil:
	case n.Kind == toml.TableNode:
		in := t.Inner(key, n)
		in.Quiet = true
		if in.Quantity("powered_down", dst) {
			t.NoteValue(key, "powered down for "+in.Written("powered_down", ""))
		}
		in.Done()
	case n.Is("hot"):
		*dst = 0
		t.NoteValue(key, "hot")
	default:
		t.WrongAt(n, key, n.Shown(), t.Key(key).Expected(), "")
	}
}
