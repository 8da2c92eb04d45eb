package site

import "arrayodds/array"

// care reads how arrays are looked after. A choice's own table keeps what the
// site's says wherever it is silent.
func (t *table) care(c *array.Care) {
	t.law("notice", standard("1 h"), lawKey{}, &c.Notice)
	t.law("response", standard("24 h"), lawKey{open: true}, &c.Response)
	t.law("restock", standard("72 h"), lawKey{open: true}, &c.Restock)
	t.quantity("rebuild_share", aShare, standard(0.5), between{"0.001", "1"}, &c.RebuildShare)
	t.quantity("rebuild_floor", aRate, standard("20 MB/s"), between{"1 kB/s", "1 TB/s"}, &c.RebuildFloor)
	t.quantityOrNone("controller_limit", aRate, standard("none"), between{"1 MB/s", "1 TB/s"}, &c.ControllerLimit)
	t.choose("rebuilds", standard("serial"), "serial", "parallel", &c.Parallel)
	t.choose("unreadable", standard("skip"), "skip", "stop", &c.Stop)
	t.law("scrub", standard("none"), lawKey{none: true, some: true}, &c.Scrub)
	t.law("restore", absent("none: notice, response and rebuild count"), lawKey{none: true, some: true}, &c.Restore)
	t.done()
}
