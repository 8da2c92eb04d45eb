package site

import (
	"slices"

	"arrayodds/array"
	"arrayodds/array/site/laws"
	"arrayodds/array/toml"
)

var careKey = Key{Path: "care", Kind: toml.SubTable, Doc: "How the site looks after its arrays."}

var careKeys = slices.Concat(
	laws.TimeKeys(Key{Path: "notice", Called: "time until a failure is noticed", Kind: toml.Time, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Default: "1 h",
		Doc: "From a failure until somebody knows of it."}),
	laws.WorkTimeKeys(Key{Path: "response", Called: "time until a new drive is in", Kind: toml.Time, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Default: "24 h",
		Doc: "From then until a new drive is in; a hot spare is taken at once instead."}),
	laws.WorkTimeKeys(Key{Path: "restock", Called: "time until a hot spare is replaced", Kind: toml.Time, Quantity: toml.Hours, Min: "0 h", Max: "50 y", Default: "72 h",
		Doc: "From when a hot spare is taken until there is another."}),
	[]Key{
		{Path: "rebuild_share", Called: "rebuild's share of the drives' speed", Kind: toml.Measured, Quantity: toml.Share, Min: "0.001", Max: "1", Default: "0.5",
			Doc: "The share of what drive and controller can do that a rebuild is given."},
		{Path: "rebuild_floor", Called: "least rebuild rate", Kind: toml.Measured, Quantity: toml.Rate, Min: "1 kB/s", Max: "1 TB/s", Default: "20 MB/s",
			Doc: "The rate below which a rebuild never falls; at most the drive's transfer."},
		{Path: "controller_limit", Called: "controller's limit of a rebuild", Kind: toml.Measured, Quantity: toml.Rate, Min: "1 MB/s", Max: "1 TB/s", Default: "none", None: true,
			Doc: "What the controller can move for one rebuild, where that is less than what the drive can."},
		{Path: "rebuilds", Called: "order of rebuilds", Kind: toml.Word, Words: []string{"serial", "parallel"}, Default: "serial",
			Doc: "Whether the drives of one group are rebuilt one after the other or all at once."},
		{Path: "unreadable", Called: "what an unreadable sector does to a rebuild", Kind: toml.Word, Words: []string{"skip", "stop"}, Default: "skip",
			Doc: "Whether a rebuild that meets a sector it cannot read loses that stripe, or ends and loses the group."},
	},
	laws.TimeKeys(Key{Path: "scrub", Called: "time between scrubs", Kind: toml.Time, Quantity: toml.Hours, Min: "1 s", Max: "50 y", Default: "none", None: true,
		Doc: "How long a latent defect stays until a scrub clears it."}),
	laws.TimeKeys(Key{Path: "restore", Called: "time until all is restored", Kind: toml.Time, Quantity: toml.Hours, Min: "1 s", Max: "50 y", None: true,
		Absent: "none: notice, response and rebuild count",
		Doc:    "From a failure until all is restored, in place of notice, response and rebuild."}),
)

// readCare reads how arrays are looked after. A choice's own table keeps what the
// site's says wherever it is silent.
func readCare(t *toml.Table, c *array.Care) {
	laws.ReadTime(t, "notice", &c.Notice)
	laws.ReadTime(t, "response", &c.Response)
	laws.ReadTime(t, "restock", &c.Restock)
	t.Quantity("rebuild_share", &c.RebuildShare)
	t.Quantity("rebuild_floor", &c.RebuildFloor)
	t.Quantity("controller_limit", &c.ControllerLimit)
	if word, ok := t.Word("rebuilds"); ok {
		c.Parallel = word == "parallel"
	}
	if word, ok := t.Word("unreadable"); ok {
		c.Stop = word == "stop"
	}
	laws.ReadTime(t, "scrub", &c.Scrub)
	laws.ReadTime(t, "restore", &c.Restore)
	t.Done()
}
