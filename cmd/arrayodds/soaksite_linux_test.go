package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
)

// draw draws inputs for the soak. What it draws is accepted for the most part, and small
// enough to be simulated in a moment.
type draw struct{ *rand.Rand }

// of returns one of these texts.
func (d draw) of(texts ...string) string { return texts[d.IntN(len(texts))] }

// once reports true once in so many times.
func (d draw) once(in int) bool { return d.IntN(in) == 0 }

// whole returns a whole number, both ends among them.
func (d draw) whole(low, high int) int { return low + d.IntN(high-low+1) }

// decades returns a number whose logarithm is as often here as there, to three digits.
func (d draw) decades(low, high float64) string {
	x := low * math.Pow(high/low, d.Float64())
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// maybe returns a line with a key and its value, or nothing.
func (d draw) maybe(key, value string) string {
	if d.once(2) {
		return ""
	}
	return key + " = " + value + "\n"
}

// between returns a quantity, at times with a range around it.
func (d draw) between(low, high float64, unit string) string {
	if !d.once(6) {
		return `"` + d.decades(low, high) + unit + `"`
	}
	middle := math.Sqrt(low * high)
	return fmt.Sprintf(`{ low = "%s%s", likely = "%.3g%s", high = "%s%s" }`, d.decades(low, middle/1.1), unit, middle, unit, d.decades(middle*1.1, high), unit)
}

// law returns a length of time, fixed or by a law.
func (d draw) law(low, high float64) string {
	switch d.IntN(7) {
	case 0:
		return `{ exponential = "` + d.decades(low, high) + ` h" }`
	case 1:
		return `{ weibull = { min = "1 h", scale = "` + d.decades(low, high) + ` h", shape = ` + d.decades(0.7, 4) + ` } }`
	case 2:
		return `{ lognormal = { median = "` + d.decades(low, high) + ` h", p90 = "` + d.decades(high, 3*high) + ` h" } }`
	case 3:
		return `{ within = "` + strconv.Itoa(d.whole(1, 20)) + ` h", hours = "` + d.of("Mon-Fri 08:00-17:00", "Sat-Sun 22:00-06:00") + `" }`
	}
	return d.between(low, high, " h")
}

func (d draw) life() string {
	switch d.IntN(6) {
	case 0:
		return `{ mtbf = "` + d.decades(3e4, 2e6) + ` h" }`
	case 1:
		return `{ shape = ` + d.decades(0.7, 2) + `, scale = "` + d.decades(1e5, 1e6) + ` h" }`
	case 2:
		return `{ afr_by_year = ["` + d.decades(0.5, 10) + ` %", "0 %", "` + d.decades(0.5, 10) + ` %"] }`
	case 3:
		return fmt.Sprintf(`{ failures = %d, drive_days = %d }`, d.IntN(50), d.whole(100_000, 3_000_000))
	}
	return `{ afr = ` + d.between(0.5, 20, " %") + ` }`
}

// strange are labels that pages, tables and shells may stumble over.
var strange = []string{"plain", "<b>bold</b>", "=1+1", "ü ß 漢字", "a,b;c", "it's 100 %", "-x", "{{.}}", "</script>", "$(id)"}

// site draws a site file with a choice labelled first. In one of ten there is a mistake,
// and one of fifteen ends somewhere, as one does that is being written.
func (d draw) site() string {
	var b strings.Builder
	fmt.Fprintf(&b, "name = %q\nservice_life = \"%s y\"\n", d.of(strange...), d.decades(1, 10))
	b.WriteString(d.maybe("currency", `"EUR"`) + d.maybe("energy_price", d.decades(0.05, 1)) + d.maybe("growth", `"`+strconv.Itoa(d.IntN(60))+` %"`))
	if d.once(10) {
		b.WriteString(d.of("retension = 3\n", "growth = 1\ngrowth = 2\n", "energy_price = \"4 TB\"\n", "name = 7\n", "currency = \"\"\n[care\n"))
	}
	cameras := d.IntN(4)
	for i := range cameras {
		fmt.Fprintf(&b, "[[cameras]]\nlabel = \"%s %d\"\ncount = %d\nretention = \"%d d\"\n", d.of(strange...), i, d.whole(1, 30), d.whole(1, 60))
		if d.once(4) {
			fmt.Fprintf(&b, "resolution = %q\nframes_per_second = %d\ncodec = %q\n", d.of("1080p", "4K", "4 MP"), d.whole(1, 30), d.of("H.264", "H.265", "AV1", "MJPEG"))
		} else {
			b.WriteString("bitrate = " + d.between(1, 12, " Mbit/s") + "\n")
		}
		b.WriteString(d.maybe("hours_per_day", strconv.Itoa(d.whole(1, 24))) + d.maybe("activity", d.decades(0.1, 1)))
	}
	drives := d.whole(1, 3)
	for i := range drives {
		fmt.Fprintf(&b, "[[drives]]\nlabel = \"drive %d\"\ncapacity = \"%d TB\"\nlife = %s\ntransfer = \"%d MB/s\"\n", i, d.whole(1, 20), d.life(), d.whole(80, 280))
		b.WriteString(d.maybe("price", d.decades(50, 500)) + d.maybe("power", `"`+d.decades(4, 12)+` W"`) + d.maybe("batch_variance", d.of("0", "0.2", "1")) +
			d.maybe("read_error", d.of(`"none"`, `"1 in 1e14 bits"`, `"1 in 1e15 bits"`)) + d.maybe("latent_defects", `{ mean = "`+d.decades(3e3, 1e5)+` h" }`) +
			d.maybe("hazard_multiplier", d.of("1", "2", "{ low = 0.8, likely = 1, high = 3 }")) + d.maybe("workload", `"300 TB/y"`))
	}
	for i := range d.whole(1, 4) {
		label := "first"
		if i > 0 {
			label = fmt.Sprint(d.of(strange...), " ", i)
		}
		layout, most, groups := d.layout()
		fmt.Fprintf(&b, "[[choices]]\nlabel = %q\ndrive = \"drive %d\"\nlayout = %q\ndrives = %d\ngroups = %d\n", label, d.IntN(drives), layout, most, groups)
		b.WriteString(d.maybe("hot_spares", strconv.Itoa(d.IntN(3))))
	}
	b.WriteString("[care]\n" + d.maybe("notice", d.law(1, 12)) + d.maybe("response", d.law(4, 96)) + d.maybe("restock", d.law(24, 200)) +
		d.maybe("rebuild_share", d.decades(0.1, 1)) + d.maybe("rebuilds", d.of(`"serial"`, `"parallel"`)) + d.maybe("unreadable", d.of(`"skip"`, `"stop"`)) + d.maybe("scrub", d.between(100, 1000, " h")))
	b.WriteString("[hazards]\n" + d.maybe("common_cause", `{ per_year = `+d.decades(1e-4, 0.1)+`, each_drive = `+d.decades(0.05, 1)+` }`) + d.maybe("degraded_multiplier", d.of("1", "1.5", "3")))
	if !d.once(3) {
		b.WriteString("[recorder]\nbays = 40\n" + d.maybe("price", "2000") + d.maybe("idle_power", `"90 W"`) + d.maybe("link", `"1 Gbit/s"`) +
			d.maybe("power", `{ failures_per_year = 0.05, restore = "48 h", redundant = `+d.of("true", "false")+` }`) +
			d.maybe("system_disk", `{ failures_per_year = 0.02, restore = "24 h" }`) + d.maybe("mains", `{ outages_per_year = 3, mean = "1.2 h", ups_bridges = "30 min" }`) +
			d.maybe("swap", `{ powered_down = "30 min" }`))
	}
	b.WriteString("[goal]\nloss_chance = \"1 in " + strconv.Itoa(d.whole(2, 100_000)) + "\"\n" + d.maybe("missing_clip", `"5 %"`) + d.maybe("budget", d.decades(500, 50000)))
	fmt.Fprintf(&b, "[run]\nseed = %d\naccuracy = \"%d %%\"\nmax_trials = %d\n", d.IntN(1000), d.whole(10, 80), d.whole(1000, 4000))
	if d.once(15) {
		return b.String()[:d.IntN(b.Len())]
	}
	return b.String()
}

// layout draws a layout with drives in groups that it can have.
func (d draw) layout() (name string, drives, groups int) {
	groups = d.whole(1, 2)
	wide := func(low, high int) int { return groups * d.whole(low, high) }
	switch d.IntN(9) {
	case 0:
		return "JBOD", wide(1, 4), groups
	case 1:
		return "RAID 0", wide(2, 4), groups
	case 2:
		return "RAID 1", wide(2, 3), groups
	case 3:
		return "RAID 10", 2 * wide(2, 4), groups
	case 4:
		return "RAID 5", wide(3, 8), groups
	case 5:
		return "RAID 60", 2 * d.whole(4, 8), 2
	case 6:
		return "triple parity", wide(5, 9), groups
	case 7:
		return "4+2", 6 * groups, groups
	}
	return "RAID 6", wide(4, 9), groups
}

// record draws the summary of a fleet's record.
func (d draw) record() string {
	b := strings.Builder{}
	b.WriteString("label,drive_days,failures\n")
	for i := range d.whole(1, 5) {
		fmt.Fprintf(&b, "model %d,%d,%d\n", i, d.whole(1000, 4_000_000), d.IntN(100))
	}
	return b.String()
}
