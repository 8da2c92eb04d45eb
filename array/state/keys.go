package state

import (
	"slices"
	"sync"

	"arrayodds/array/toml"
)

var schema = sync.OnceValue(func() *toml.Schema { return toml.NewSchema(keys) })

// Keys returns every key of a state file, each table before what is in it.
func Keys() []toml.Key { return slices.Clone(schema().Keys()) }

// The words of a drive's state.
const (
	running    = "running"
	down       = "down"
	rebuilding = "rebuilding"
)

var keys = []toml.Key{
	{Path: "site", Kind: toml.Text, Doc: "The site file of the array, by its path from the folder of the state file; only a whole folder of states asks for it."},
	{Path: "choice", Kind: toml.Text, LabelOf: "choices", Right: "the label of one of the site's [[choices]]", Doc: "Which of the site's choices was built."},
	{Path: "when", Kind: toml.Text, Absent: "not given: a random hour of the week", Right: whenRight, Doc: "When this is the state, as open hours are counted from it."},
	{Path: "age", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Required: true, Doc: "Age of every drive for which no other is given."},
	{Path: "hot_spares", Kind: toml.Whole, Min: "0", Max: "100", Absent: "as many as the choice has", Doc: "Hot spares that are free."},
	{Path: "spare_in", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "1 y", Absent: "not given: the site's restock, from now", Doc: "From now until hot spares that were taken are back."},
	{Path: "technician_in", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "1 y", Absent: "not given: the site's response, from now", Doc: "From now until somebody is there who can change a drive."},
	{Path: "drive_in", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "1 y", Default: "0 h", Doc: "From now until a drive to put in is there."},
	{Path: "scrubbed", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Absent: "not given: as the site scrubs", Doc: "How long ago the last scrub ended."},
	{Path: "drives", Kind: toml.Tables, Most: 1000, Item: "drive", Absent: "none: every drive runs", Doc: "A drive of which something is known."},
	{Path: "drives.number", Kind: toml.Whole, Min: "1", Max: "1000", Required: true, Doc: "Its number, from 1; the drives of the first group come first."},
	{Path: "drives.label", Kind: toml.Text, Doc: "What people call it."},
	{Path: "drives.age", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Doc: "Its own age."},
	{Path: "drives.state", Kind: toml.Word, Words: []string{running, down, rebuilding}, Default: running, Doc: "Whether it runs, is down, or is down with its rebuild running."},
	{Path: "drives.down_for", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Doc: "How long ago it failed."},
	{Path: "drives.rebuilt", Kind: toml.Measured, Quantity: toml.Share, Min: "0", Max: "1", Default: "0", Doc: "The share of its rebuild that is done."},
	{Path: "drives.rebuilding_for", Kind: toml.Measured, Quantity: toml.Hours, Min: "0 h", Max: "1 y", Doc: "How long its rebuild has run."},
	{Path: "drives.defects", Kind: toml.Whole, Min: "0", Max: "1000000", Default: "0", Doc: "Sectors of it that are known to be unreadable."},
}
