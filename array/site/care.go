package site

import (
	"arrayodds/array"
	"arrayodds/array/toml"
)

// readCare reads how arrays are looked after. A choice's own table keeps what the
// site's says wherever it is silent.
func readCare(t *toml.Table, c *array.Care) {
	readTime(t, "notice", toml.Default("1 h"), timeKey{}, &c.Notice)
	readTime(t, "response", toml.Default("24 h"), timeKey{open: true}, &c.Response)
	readTime(t, "restock", toml.Default("72 h"), timeKey{open: true}, &c.Restock)
	t.Quantity("rebuild_share", toml.Share, toml.Default(0.5), toml.Between{Low: "0.001", High: "1"}, &c.RebuildShare)
	t.Quantity("rebuild_floor", toml.Rate, toml.Default("20 MB/s"), toml.Between{Low: "1 kB/s", High: "1 TB/s"}, &c.RebuildFloor)
	t.QuantityOrNone("controller_limit", toml.Rate, toml.Default("none"), toml.Between{Low: "1 MB/s", High: "1 TB/s"}, &c.ControllerLimit)
	t.OneOf("rebuilds", toml.Default("serial"), "serial", "parallel", &c.Parallel)
	t.OneOf("unreadable", toml.Default("skip"), "skip", "stop", &c.Stop)
	readTime(t, "scrub", toml.Default("none"), timeKey{none: true, some: true}, &c.Scrub)
	readTime(t, "restore", toml.Absent("none: notice, response and rebuild count"), timeKey{none: true, some: true}, &c.Restore)
	t.Done()
}
