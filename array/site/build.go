package site

import (
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/toml"
)

var buildKey = Key{Path: "build", Kind: toml.SubTable, Doc: "What the building of a choice and its keeping need; only plan asks for it, and no chance rests on it."}

var buildKeys = slices.Concat(
	[]Key{
		{Path: "batches", Kind: toml.Whole, Min: "1", Max: "1000", Default: "2", Doc: "Batches that the first drives can be had from, such as deliveries of different weeks."},
		{Path: "lead", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "5 y", Default: "14 d", Doc: "From ordering a drive for the shelf to having it; the default is common practice, no source."},
		{Path: "two_people_from", Kind: toml.Measured, Quantity: toml.Mass, Min: "0 kg", Max: "100 kg", Default: "18 kg", Doc: "The weight from which two people lift; the default is common practice, no source, and local rules go before it."},
		{Path: "drill_every", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 d", Max: "50 y", Default: "1 y", Doc: "How often the pulled-drive drill is done."},
		{Path: "battery_life", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 d", Max: "50 y", Default: "4 y", Doc: "How long the battery of a UPS lasts until it is renewed; the default is common practice, no source."},
		{Path: "alarms_to", Kind: toml.Text, Doc: "Who gets the recorder's alarms, and how."},
		{Path: "time_source", Kind: toml.Text, Doc: "What sets the clocks of recorder and cameras."},
	},
	toml.Inside(Key{Path: "ups", Kind: toml.SubTable, Doc: "What the maker of the UPS states."}, []Key{
		{Path: "rated", Kind: toml.Measured, Quantity: toml.Watts, Min: "1 W", Max: "1000 kW", Doc: "The load that it can carry."},
		{Path: "load", Kind: toml.List, Quantity: toml.Watts, Min: "1 W", Max: "1000 kW", Most: 50, Required: true,
			Right: `a list of 1 to 50 loads, the least first, such as ["100 W", "300 W"]`, Doc: "Loads of its table of run times, the least first."},
		{Path: "lasts", Kind: toml.List, Quantity: toml.Hours, Min: "1 s", Max: "1 y", Most: 50, Required: true,
			Right: `a list with a time for each load, such as ["62 min", "15 min"]`, Doc: "How long a new battery carries each of these loads."},
	}),
)

// readBuild reads what a plan asks for. No result rests on it, and so nothing of it is
// noted: the plan says itself what it took.
func readBuild(t *toml.Table) (b array.Build) {
	unnoted(t, func() {
		c := section(t, "build")
		c.Count("batches", &b.Batches)
		c.Quantity("lead", &b.Lead)
		c.Quantity("two_people_from", &b.TwoPeopleFrom)
		c.Quantity("drill_every", &b.DrillEvery)
		c.Quantity("battery_life", &b.BatteryLife)
		c.Text("alarms_to", &b.AlarmsTo)
		c.Text("time_source", &b.TimeSource)
		b.UPS = readUPS(c)
		c.Done()
	})
	return b
}

// readUPS reads what the maker of a UPS states; nil where nothing is.
func readUPS(t *toml.Table) *array.UPS {
	c := t.Child("ups")
	if c == nil {
		return nil
	}
	var u array.UPS
	c.Quantity("rated", &u.Rated)
	u.Load = readList(c, "load")
	u.Lasts = readList(c, "lasts")
	switch {
	case u.Load == nil || u.Lasts == nil:
	case len(u.Load) != len(u.Lasts):
		c.Wrong("lasts", fmt.Sprintf("%d times for %d loads", len(u.Lasts), len(u.Load)), c.Key("lasts").Expected(), "")
	case !slices.IsSorted(u.Load):
		c.Wrong("load", "a load that is less than the one before", c.Key("load").Expected(), "")
	}
	c.Done()
	return &u
}

// readList reads a list of values with units; nil where something is wrong with it.
func readList(t *toml.Table, key string) (all []float64) {
	n := t.Ask(key)
	if n == nil {
		return nil
	}
	k := t.Key(key)
	if n.Kind != toml.ListNode {
		t.WrongAt(n, key, n.Shown(), k.Expected(), "")
		return nil
	}
	if len(n.Items) == 0 || len(n.Items) > k.Most {
		t.WrongAt(n, key, fmt.Sprintf("%d of them", len(n.Items)), k.Expected(), "")
		return nil
	}
	sound := true
	for _, item := range n.Items {
		v, _, ok := t.Measure(key, item)
		all, sound = append(all, v), sound && ok
	}
	if !sound {
		return nil
	}
	return all
}

// unnoted reads without listing anything among the assumptions: what no result rests on.
func unnoted(t *toml.Table, read func()) {
	mute := t.Mute
	t.Mute = true
	read()
	t.Mute = mute
}

// chassisKeys are the keys of a recorder that only a plan asks for.
var chassisKeys = slices.Concat(
	[]Key{
		{Path: "rack_units", Called: "rack units", Kind: toml.Whole, Min: "1", Max: "60", Doc: "Its height in a rack; only plan asks for it."},
		{Path: "weight", Called: "weight of the recorder", Kind: toml.Measured, Quantity: toml.Mass, Min: "0 kg", Max: "1000 kg", Doc: "What it weighs without drives; only plan asks for it."},
		{Path: "rails", Called: "price of rails", Kind: toml.Number, Min: "0", Max: "1e9", Doc: "What its rails cost, in the site's currency; only plan asks for it."},
		{Path: "power_factor", Called: "power factor", Kind: toml.Number, Min: "0.1", Max: "1", Default: "0.9", Doc: "Watts for each volt-ampere that its supply takes; only plan asks for it, and the default is common practice, no source."},
	},
	toml.Inside(Key{Path: "numbering", Kind: toml.SubTable, Right: `a table such as { columns = 4, first = "top left", runs = "across" }`,
		Doc: "How its bays are numbered, seen from the front; only plan asks for it."}, []Key{
		{Path: "columns", Kind: toml.Whole, Min: "1", Max: "100", Required: true, Doc: "Bays in a row."},
		{Path: "first", Kind: toml.Word, Words: []string{"top left", "top right", "bottom left", "bottom right"}, Default: "top left", Doc: "Where the first bay is."},
		{Path: "runs", Kind: toml.Word, Words: []string{"across", "down"}, Default: "across", Doc: "Whether the second bay is beside the first, or below or above it."},
		{Path: "from", Kind: toml.Whole, Min: "0", Max: "1", Default: "1", Doc: "The number of the first bay."},
	}),
)

// readChassis reads what only a plan asks of a recorder.
func readChassis(t *toml.Table, r *array.Recorder) {
	unnoted(t, func() {
		t.Count("rack_units", &r.RackUnits)
		t.Quantity("weight", &r.Weight)
		t.Number("rails", &r.Rails)
		t.Number("power_factor", &r.PowerFactor)
		readNumbering(t, &r.Numbering)
	})
}

func readNumbering(t *toml.Table, dst *array.Numbering) {
	c := t.Child("numbering")
	if c == nil {
		return
	}
	var n array.Numbering
	c.Count("columns", &n.Columns)
	if word, ok := c.Word("first"); ok {
		n.Bottom, n.Right = word == "bottom left" || word == "bottom right", word == "top right" || word == "bottom right"
	}
	if word, ok := c.Word("runs"); ok {
		n.Down = word == "down"
	}
	c.Count("from", &n.From)
	c.Done()
	*dst = n
}
