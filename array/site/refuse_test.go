package site

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/array/toml"
)

// TestRefuse: each of these changes to the small file is one error, which stands
// at its line and says these words.
func TestRefuse(t *testing.T) {
	t.Parallel()
	drive := func(line string) [2]string {
		return [2]string{`transfer = "210 MB/s"`, `transfer = "210 MB/s"` + "\n" + line}
	}
	life := func(law string) [2]string { return [2]string{`{ afr = "1.5 %" }`, law} }
	after := func(lines string) [2]string { return [2]string{"drives = 8\n", "drives = 8\n" + lines + "\n"} }
	camera := func(lines string) [2]string {
		return after("[[cameras]]\ncount = 2\nbitrate = \"6 Mbit/s\"\nretention = \"30 d\"\n" + lines)
	}
	for _, c := range []struct {
		change [2]string
		line   int
		key    string
		says   string
	}{
		// bounds of what makes sense
		{[2]string{`"5 y"`, `"51 y"`}, 1, "service_life", "1 d to 50 y"},
		{[2]string{`"5 y"`, `"1000000 y"`}, 1, "service_life", "1 d to 50 y"},
		{[2]string{`"5 y"`, `"23 h"`}, 1, "service_life", "1 d to 50 y"},
		{[2]string{`"5 y"`, `5`}, 1, "service_life", "5, a number without a unit"},
		{[2]string{`"5 y"`, `nan`}, 1, "service_life", "nan, a number without a unit"},
		{[2]string{`"5 y"`, `2026-01-01`}, 1, "service_life", "found 2026-01-01"},
		{[2]string{`capacity = "12 TB"`, `capacity = "12"`}, 4, "drives.12 TB.capacity", "without a unit"},
		{[2]string{`capacity = "12 TB"`, `capacity = 12`}, 4, "drives.12 TB.capacity", "12, a number without a unit"},
		{[2]string{`capacity = "12 TB"`, `capacity = "12 Tb"`}, 4, "drives.12 TB.capacity", `did you mean "12 TB"`},
		{[2]string{`capacity = "12 TB"`, `capacity = "2 PB"`}, 4, "drives.12 TB.capacity", "1 GB to 1 PB"},
		{[2]string{`capacity = "12 TB"`, `capacity = ["12 TB"]`}, 4, "drives.12 TB.capacity", "found a list"},
		{[2]string{`"210 MB/s"`, `"210 Mbit/s"`}, 6, "drives.12 TB.transfer", `did you mean "26.25 MB/s"`},
		{[2]string{`"210 MB/s"`, `"1 kB/s"`}, 6, "drives.12 TB.transfer", "1 MB/s to 1 TB/s"},
		{life(`{ afr = "0 %" }`), 5, "drives.12 TB.life.afr", "0.00001 % to 1000 %"},
		{life(`{ afr = "1001 %" }`), 5, "drives.12 TB.life.afr", "0.00001 % to 1000 %"},
		{life(`{ afr = "0.015" }`), 5, "drives.12 TB.life.afr", `"0.015 %" or "1.5 %"`},
		{life(`{ mtbf = "9 h" }`), 5, "drives.12 TB.life.mtbf", "10 h to 1e10 h"},
		{life(`{ mtbf = "2e10 h" }`), 5, "drives.12 TB.life.mtbf", "10 h to 1e10 h"},
		{life(`{ shape = 0.1, scale = "400000 h" }`), 5, "drives.12 TB.life.shape", "0.2 to 20"},
		{life(`{ shape = 1.1 }`), 5, "drives.12 TB.life.scale", "found nothing"},
		{life(`{ afr_by_year = [] }`), 5, "drives.12 TB.life.afr_by_year", "0 rates"},
		{life(`{ afr_by_year = ["0 %"] }`), 5, "drives.12 TB.life.afr_by_year", "no rate above 0"},
		{life(`{ afr_by_year = ["1 %",` + "\n" + `"2"] }`), 6, "drives.12 TB.life.afr_by_year", `"2 %" or "200 %"`},
		{life(`{ failures = -1, drive_days = 5000 }`), 5, "drives.12 TB.life.failures", "0 to 1 000 000 000"},
		{life(`{ failures = 2.5, drive_days = 5000 }`), 5, "drives.12 TB.life.failures", "a whole number"},
		{life(`{ failures = 0, drive_days = 0 }`), 5, "drives.12 TB.life.drive_days", "found 0"},
		{life(`{ failures = 50, drive_days = 60 }`), 5, "drives.12 TB.life.drive_days", "at most 1000 %"},
		{life(`{ failures = 50 }`), 5, "drives.12 TB.life.drive_days", "found nothing"},
		{life(`{ }`), 5, "drives.12 TB.life", "a table without afr, mtbf"},
		{life(`{ arf = "1 %" }`), 5, "drives.12 TB.life.arf", `did you mean "afr"`},
		{life(`{ afr = "1 %", mtbf = "1000000 h" }`), 5, "drives.12 TB.life.mtbf", "found it beside afr"},
		{life(`"1.5 %"`), 5, "drives.12 TB.life", `{ afr = "1.5 %" }`},
		{drive(`hazard_multiplier = 0`), 7, "drives.12 TB.hazard_multiplier", "0.001 to 1 000"},
		{drive(`hazard_multiplier = inf`), 7, "drives.12 TB.hazard_multiplier", "found inf"},
		{drive(`batch_variance = 101`), 7, "drives.12 TB.batch_variance", "0 to 100"},
		{drive(`batch_variance = -1`), 7, "drives.12 TB.batch_variance", "found -1"},
		{drive(`read_error = "1 in 1e15"`), 7, "drives.12 TB.read_error", `did you mean "1 in 1e15 bits"`},
		{drive(`read_error = "1 in 5 bits"`), 7, "drives.12 TB.read_error", "1 in 1e10 bits to 1 in 1e20 bits"},
		{drive(`latent_defects = "9259 h"`), 7, "drives.12 TB.latent_defects", `{ mean = "9259 h" }`},
		{drive(`price = "290"`), 7, "drives.12 TB.price", "without quotes"},
		{drive(`price = -1`), 7, "drives.12 TB.price", "found -1"},
		{drive(`power = "7 kW"`), 7, "drives.12 TB.power", "0 W to 1 kW"},
		{drive(`workload = "550 TB"`), 7, "drives.12 TB.workload", `right would be bytes a year: GB/y, TB/y or PB/y (powers of 1000), or GiB/y, TiB/y or PiB/y (powers of 1024) (did you mean "550 TB/y"?)`},
		{drive(`workload = 550`), 7, "drives.12 TB.workload", `a yearly workload in quotes, such as "550 TB/y" (1 GB/y to 1000 PB/y)`},
		{drive(`workload = "0 TB/y"`), 7, "drives.12 TB.workload", "1 GB/y to 1000 PB/y"},
		{after("[recorder]\nlicences = 45"), 13, "recorder.licences", "found 45; right would be a table"},
		{after("[recorder]\nlicences = { included = 8 }"), 13, "recorder.licences.each", "found nothing"},
		{after("[recorder]\nlicences = { included = 1.5, each = 45 }"), 13, "recorder.licences.included", "a whole number, 0 to 100 000"},
		{after("[recorder]\nlicences = { each = -1 }"), 13, "recorder.licences.each", "found -1"},
		{after("[recorder]\nwrite_limit = \"480 Mbit/s\""), 13, "recorder.write_limit", `did you mean "60 MB/s"`},
		{drive(`weight = "720"`), 7, "drives.12 TB.weight", `without a unit`},
		{after("[recorder]\nweight = 14"), 13, "recorder.weight", `"14 kg"`},
		{after("[recorder]\nnumbering = { first = \"top left\" }"), 13, "recorder.numbering.columns", "found nothing"},
		{after("[recorder]\nnumbering = { columns = 4, first = \"left top\" }"), 13, "recorder.numbering.first", "one of top left"},
		{after("[build]\nbatches = 0"), 13, "build.batches", "1 to 1 000"},
		{after("[build]\nups = { load = [\"100 W\"], lasts = [\"1 h\", \"9 min\"] }"), 13, "build.ups.lasts", "found 2 times for 1 loads"},
		{after("[build]\nups = { load = [\"300 W\", \"100 W\"], lasts = [\"9 min\", \"1 h\"] }"), 13, "build.ups.load", "less than the one before"},
		{after("[build]\nups = { load = \"300 W\", lasts = [\"9 min\"] }"), 13, "build.ups.load", "the least first"},
		{[2]string{`service_life =`, "growth = \"20\"\nservice_life ="}, 1, "growth", "right would be 0 to 10"},
		{[2]string{`service_life =`, "growth = 11\nservice_life ="}, 1, "growth", "found 11; right would be 0 to 10"},
		{drive(`powr = "7 W"`), 7, "drives.12 TB.powr", `did you mean "power"`},
		{drive(`"a\u001bb" = 1`), 7, `drives.12 TB."a\x1bb"`, "an unknown key"},
		{drive(`"" = 1`), 7, `drives.12 TB.""`, "an unknown key"},
		{drive(`label = "x"`), 7, "drives.label", "the first is on line 3"},
		{drive("[[drives]]\nlabel = \"12 TB\"\ncapacity = \"1 TB\"\nlife = { afr = \"1 %\" }\ntransfer = \"99 MB/s\""), 8, "drives.12 TB.label", "the label of line 3 again"},
		{[2]string{`drive = "12 TB"`, `drive = "12-tb"`}, 9, "choices.Eight.drive", `did you mean "12 TB"`},
		{[2]string{`"RAID 6"`, `"RAID 7x"`}, 10, "choices.Eight.layout", "one of JBOD, RAID 0"},
		{[2]string{`"RAID 6"`, `"tripel parity"`}, 10, "choices.Eight.layout", `did you mean "triple parity"`},
		{[2]string{`"RAID 6"`, `6`}, 10, "choices.Eight.layout", "found 6"},
		{[2]string{`"RAID 6"`, `"6+3"`}, 11, "choices.Eight.drives", "right would be 9"},
		{[2]string{`drives = 8`, `drives = 1000000000`}, 11, "choices.Eight.drives", "1 to 1 000"},
		{[2]string{`drives = 8`, `drives = 8.5`}, 11, "choices.Eight.drives", "a whole number"},
		{[2]string{`drives = 8`, `drives = 3`}, 11, "choices.Eight.drives", "at least 4 a group for RAID 6"},
		{after(`groups = 3`), 11, "choices.Eight.drives", "right would be 6 or 9"},
		{after(`groups = 0`), 12, "choices.Eight.groups", "1 to 1 000"},
		{after(`hot_spares = 101`), 12, "choices.Eight.hot_spares", "0 to 100"},
		{after("hot_spares = 1\n[recorder]\nbays = 8"), 11, "choices.Eight.drives", "found 8 drives and 1 hot spare; right would be at most 8"},
		{after("[recorder]\nbays = 9\n[choices.recorder]\nbays = 7"), 11, "choices.Eight.drives", "at most 7"},
		{after("[[choices]]\nlabel = \"Eight\"\ndrive = \"12 TB\"\nlayout = \"JBOD\"\ndrives = 1"), 13, "choices.Eight.label", "the label of line 8 again"},
		{[2]string{`label = "Eight"`, `label = "  "`}, 8, "choices 1.label", `found ""`},
		{[2]string{`label = "Eight"`, `label = "a\nb"`}, 8, "choices 1.label", "without control characters"},
		{[2]string{`label = "Eight"`, `label = "` + strings.Repeat("x", 201) + `"`}, 8, "choices 1.label", "at most 200 characters"},
		{[2]string{"label = \"Eight\"\n", ""}, 7, "choices 1.label", "found nothing"},
		{[2]string{"drives = 8\n", ""}, 7, "choices.Eight.drives", "found nothing"},
		{camera(`count = 3`), 16, "cameras.count", "the first is on line 13"},
		{camera(`hours_per_day = 25`), 16, "cameras.Cameras 1.hours_per_day", "0.01 to 24"},
		{camera(`activity = 1.5`), 16, "cameras.Cameras 1.activity", "0.0001 to 1"},
		{camera(`activity = 0`), 16, "cameras.Cameras 1.activity", "0.0001 to 1"},
		{after("[[cameras]]\ncount = 0\nbitrate = \"6 Mbit/s\"\nretention = \"30 d\""), 13, "cameras.Cameras 1.count", "1 to 100 000"},
		{after("[[cameras]]\ncount = 1\nbitrate = \"6 MB/s\"\nretention = \"30 d\""), 14, "cameras.Cameras 1.bitrate", `did you mean "48 Mbit/s"`},
		{after("[[cameras]]\ncount = 1\nbitrate = \"60 Gbit/s\"\nretention = \"30 d\""), 14, "cameras.Cameras 1.bitrate", "1 kbit/s to 10 Gbit/s"},
		{after("[[cameras]]\ncount = 1\nbitrate = \"6 Mbit/s\"\nretention = \"1 month\""), 15, "cameras.Cameras 1.retention", `did you mean "30 d"`},
		{after("[[cameras]]\ncount = 1\nbitrate = \"6 Mbit/s\"\nretention = \"51 y\""), 15, "cameras.Cameras 1.retention", "1 h to 50 y"},
		{after("[care]\nresponse = \"51 y\""), 13, "care.response", "0 h to 50 y"},
		{after("[care]\nresponse = true"), 13, "care.response", "found true"},
		{after("[care]\nresponse = \"none\""), 13, "care.response", "does not begin with a number"},
		{after("[care]\nresponse = { }"), 13, "care.response", "a table without exponential"},
		{after("[care]\nresponse = { afr = \"1 %\" }"), 13, "care.response", "a table without exponential"},
		{after("[care]\nnotice = { exponentil = \"1 h\" }"), 13, "care.notice.exponentil", "one of exponential, lognormal, weibull (did you"},
		{after("[care]\nresponse = { exponential = \"0 h\" }"), 13, "care.response.exponential", "1 s to 50 y"},
		{after("[care]\nresponse = { weibull = { scale = \"1 h\", shape = 0 } }"), 13, "care.response.weibull.shape", "0.2 to 20"},
		{after("[care]\nresponse = { weibull = { scael = \"1 h\", shape = 1 } }"), 13, "care.response.weibull.scael", `did you mean "scale"`},
		{after("[care]\nresponse = { weibull = \"1 h\" }"), 13, "care.response.weibull", "a table"},
		{after("[care]\nresponse = { lognormal = { median = \"72 h\", p90 = \"72 h\" } }"), 13, "care.response.lognormal.p90", "above the median of 72 h"},
		{after("[care]\nresponse = { lognormal = { median = \"1 s\", p90 = \"72 h\" } }"), 13, "care.response.lognormal.p90", "at most 1000 times"},
		{after("[care]\nresponse = { within = \"8 h\" }"), 13, "care.response.hours", "found nothing"},
		{after("[care]\nresponse = { within = \"8 h\", hours = \"Mon-Fri\" }"), 13, "care.response.hours", "not a span"},
		{after("[care]\nscrub = { within = \"8 h\", hours = \"Mon-Fri 08:00-17:00\" }"), 13, "care.scrub.within", "found open hours"},
		{after("[care]\nresponse = { foo = \"8 h\" }"), 13, "care.response", "a table without exponential, weibull, lognormal, within, hours;"},
		{after("[care]\nscrub = { foo = \"8 h\" }"), 13, "care.scrub", "a table without exponential, weibull, lognormal; right would be a time in quotes, such as \"48 h\" (1 s to 50 y)"},
		{after("[care]\nscrub = { withn = \"8 h\" }"), 13, "care.scrub", "a table without exponential, weibull, lognormal;"},
		{after("[care]\nrestore = \"0 h\""), 13, "care.restore", "1 s to 50 y"},
		{after("[care]\nrebuild_share = 0"), 13, "care.rebuild_share", "0.001 to 1"},
		{after("[care]\nrebuild_floor = \"2 GB/s\""), 9, "choices.Eight.drive", "a drive of 210 MB/s under a rebuild_floor of 2 GB/s"},
		{after("[care]\nrebuilds = \"paralel\""), 13, "care.rebuilds", `did you mean "parallel"`},
		{after("[care]\nunreadable = \"continue\""), 13, "care.unreadable", `"skip" or "stop"`},
		{after("[hazards]\ncommon_cause = { per_year = 1001, each_drive = 0.5 }"), 13, "hazards.common_cause.per_year", "0 to 1 000"},
		{after("[hazards]\ncommon_cause = { per_year = 1, each_drive = \"101 %\" }"), 13, "hazards.common_cause.each_drive", "0 to 1"},
		{after("[hazards]\ncommon_cause = \"none\""), 13, "hazards.common_cause", "a table"},
		{after("[hazards]\ndegraded_multiplier = 0.5"), 13, "hazards.degraded_multiplier", "1 to 1 000"},
		{after("[recorder]\nmains = { outages_per_year = 9000, mean = \"2 h\" }"), 13, "recorder.mains.outages_per_year", "18 000 h a year"},
		{after("[recorder]\npower = { failures_per_year = 0.05 }"), 13, "recorder.power.restore", "found nothing"},
		{after("[recorder]\npower = { failures_per_year = 1, restore = \"2 h\", mirrored = true }"), 13, "recorder.power.mirrored", "an unknown key"},
		{after("[recorder]\npower = \"90 W\""), 13, "recorder.power", "a table"},
		{after("[recorder]\nswap = \"cold\""), 13, "recorder.swap", `{ powered_down = "30 min" }`},
		{after("[recorder]\nbays = 20000"), 13, "recorder.bays", "1 to 10 000"},
		{after("[run]\naccuracy = 0"), 13, "run.accuracy", "0.01 % to 100 %"},
		{after("[run]\naccuracy = \"0 %\""), 13, "run.accuracy", "0.01 % to 100 %"},
		{after("[run]\naccuracy = 5"), 13, "run.accuracy", "0.01 % to 100 %"},
		{after("[run]\nmax_trials = 999"), 13, "run.max_trials", "1 000 to 10 000 000 000"},
		{after("[run]\nseed = 9223372036854775808"), 13, "run.seed", "0 to 2^63 − 1"},
		{after("[rum]\nseed = 1"), 12, "rum", `did you mean "run"`},
		// TOML
		{[2]string{`"5 y"`, `5 y`}, 1, "service_life", `in quotes: service_life = "5 y"`},
		{[2]string{`capacity = "12 TB"`, `capacity = 12 TB # big`}, 4, "drives.capacity", `in quotes: capacity = "12 TB"`},
		{[2]string{`layout = "RAID 6"`, `layout = RAID 6`}, 10, "choices.layout", `in quotes: layout = "RAID 6"`},
		{[2]string{`layout = "RAID 6"`, `layout: "RAID 6"`}, 10, "choices.layout", "an equals sign"},
		{[2]string{`layout = "RAID 6"`, `layout =`}, 10, "choices.layout", "with a value"},
		{[2]string{`layout = "RAID 6"`, `layout = "RAID 6`}, 10, "choices.layout", "TOML"},
		{[2]string{"[[choices]]", "[[choices]"}, 7, "", "TOML"},
		{after("[run\nseed = 1"), 12, "", "TOML"},
		{after("[run]\nseed = 1\n[run]\nseed = 2"), 14, "run", "the first is on line 12"},
		{after("run = { seed = 1 }"), 12, "choices.Eight.run", "an unknown key"},
		{[2]string{"[[choices]]", "[choices]"}, 7, "choices", "[[choices]], with double brackets"},
		{after("[choices]"), 12, "choices", "double brackets on each, as on the first: [[choices]]"},
		{after("[[run]]\nseed = 1"), 12, "run", "[run], once"},
		{after("[a.b.c.d.e.f.g.h.i.j.k.l.m.n.o.p.q]"), 12, "", "a key of 17 parts"},
		{[2]string{"service_life", "care = 5\nservice_life"}, 1, "care", "a table"},
		{[2]string{"service_life", "cameras = 5\nservice_life"}, 1, "cameras", "tables, each under [[cameras]]"},
		{[2]string{"service_life", "cameras = [5]\nservice_life"}, 1, "cameras", "a table"},
	} {
		in := strings.Replace(small, c.change[0], c.change[1], 1)
		name := fmt.Sprintf("%.60q", c.change[1])
		if in == small {
			t.Errorf("%s changes nothing", name)
			continue
		}
		_, err := Read(strings.NewReader(in), "s.toml")
		var errs Errors
		if !errors.As(err, &errs) {
			t.Errorf("%s was accepted: %v", name, err)
			continue
		}
		e := errs[0]
		if e.Line != c.line || e.Key != c.key || !strings.Contains(e.Error(), c.says) {
			t.Errorf("%s gives\n  %v\nnot line %d, key %s, and %s", name, e, c.line, c.key, c.says)
		}
		if len(errs) > 1 {
			t.Errorf("%s gives more than one error:\n%v", name, errs)
		}
	}
}

// One mistake does not breed others that are none.
func TestNoErrorsOfErrors(t *testing.T) {
	t.Parallel()
	for name, in := range map[string]string{
		"drive without its label": strings.Replace(small, `label = "12 TB"`, `label = 12 TB`, 1),
		"header cut off":          strings.Replace(small, "[[drives]]", "[[drives]", 1),
		"drive with a bad size":   strings.Replace(small, `capacity = "12 TB"`, `capacity = "12 Tb"`, 1),
		"bays misread":            small + "[recorder]\nbays = \"8\"\n",
		"care given twice":        small + "[care]\nscrub = \"none\"\n[care]\nx = 1\n",
	} {
		_, err := Read(strings.NewReader(in), "s.toml")
		var errs Errors
		if !errors.As(err, &errs) || len(errs) != 1 {
			t.Errorf("%s:\n%v", name, err)
		}
	}
}

// A file of which nothing can be read still says what a file needs.
func TestEmptyFile(t *testing.T) {
	t.Parallel()
	_, err := Read(strings.NewReader("cameras = []\nchoices = []\n"), "s.toml")
	const want = `s.toml:1: drives: found nothing; right would be at least one drive model, under [[drives]]
s.toml:1: service_life: found nothing; right would be a time in quotes, such as "48 h" (1 d to 50 y)
s.toml:2: choices: found nothing; right would be at least one choice, under [[choices]]`
	if err == nil || err.Error() != want {
		t.Errorf("%v\nwant\n%s", err, want)
	}
}

// TestOutsized: files that are large on purpose are refused in reasonable time
// and with a list that has an end.
func TestOutsized(t *testing.T) {
	if testing.Short() {
		t.Skip("files as large as may be take seconds each")
	}
	t.Parallel()
	many := func(format string) string {
		var b strings.Builder
		for i := 0; b.Len() < toml.MaxBytes/4; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	cases := map[string]string{
		"keys":           many("k%d=1\n"),
		"one key":        many("k=%d\n"),
		"tables":         many("[t%d]\n"),
		"sub-tables":     "[[choices]]\n" + many("[choices.t%d]\n"),
		"choices":        many("[[choices]]\ndrives=%d\n"),
		"camera groups":  many("[[cameras]]\nx=%d\n"),
		"syntax":         many("k%d = a b\n"),
		"brackets":       "x = " + strings.Repeat("[", toml.MaxBytes-10),
		"braces":         "x = " + strings.Repeat("{a=", toml.MaxBytes/3-10),
		"dots":           strings.Repeat("a.", toml.MaxBytes/2-10) + "a = 1",
		"header of dots": "[" + strings.Repeat("a.", toml.MaxBytes/2-10) + "a]",
		"nested":         "x = " + strings.Repeat("[", 9000) + strings.Repeat("]", 9000),
		"a long label":   small + "[[drives]]\nlabel = \"" + strings.Repeat("x", toml.MaxBytes/2) + "\"",
		"a long layout":  strings.Replace(small, "RAID 6", strings.Repeat("RAID 6", 300_000), 1),
		"a long number":  strings.Replace(small, "5 y", strings.Repeat("9", 1_000_000)+" y", 1),
		"a long key":     strings.Repeat("k", toml.MaxBytes-10) + "=1",
		"too long":       small + strings.Repeat("#\n", toml.MaxBytes/2),
		"NULs":           strings.Repeat("\x00", 1000),
		"not UTF-8":      "x = \"\xff\xfe\"\nname = '\xff'\n# \xff\n",
	}
	for i, name := range slices.Sorted(maps.Keys(cases)) {
		if !thorough.Part(i, 3) {
			continue
		}
		in := cases[name]
		_, err := Read(strings.NewReader(in), "s.toml")
		var errs Errors
		if !errors.As(err, &errs) {
			t.Errorf("%s was accepted", name)
			continue
		}
		if len(errs) > 201 || len(errs.Error()) > 500*len(errs)+1000 {
			t.Errorf("%s: %d errors in %d bytes", name, len(errs), len(errs.Error()))
		}
	}
}
