// Package site reads the file that describes a site: its cameras, the drives
// and arrays that could be bought, and how the place looks after them.
// [Read] gives a [File], or every error of the text at once; [WithChoices] writes
// the file with other choices in it. [Open] keeps the file to be read again with
// other values in it, as package axis does.
//
// # The file
//
// It is TOML, of at most 4 MiB. Values with a unit are texts in quotes
// ("12 TB", "30 d"), as package unit reads them; a number without its unit is an
// error. A key that is not listed here is an error, never passed over.
//
//	name            text
//	service_life    time, 1 d to 50 y; required
//
//	[[cameras]]     up to 1 000 groups; without any, choices are compared by capacity
//	label           text; else "Cameras 1" and so on
//	count           1 to 100 000; required
//	bitrate         1 kbit/s to 10 Gbit/s, of one camera; required, or what it is
//	                estimated from:
//	resolution      "2560x1440", "1080p" (16:9) or "4 MP"; or width and height
//	frames_per_second  0.01 to 1 000
//	codec           H.264 (AVC), H.265 (HEVC), AV1 or MJPEG
//	hours_per_day   0.01 to 24; default 24
//	activity        share of those hours recorded, 0.0001 to 1; default 1
//	retention       time, 1 h to 50 y; required. It may be longer than the service life
//
//	cameras = "schedule.xlsx"  in place of [[cameras]], see below
//
//	[[drives]]      1 to 100 models
//	label           text, no two alike; required
//	capacity        1 GB to 1 PB; required
//	life            required, one of
//	                { afr = "1.5 %" }                    up to 1000 %
//	                { mtbf = "1000000 h" }               10 h to 1e10 h
//	                { shape = 1.12, scale = "461386 h", min = "0 h" }
//	                { shape = 1.12, scale = "461386 h", shape_error = "9 %", scale_error = "14 %", correlation = -0.8 }
//	                { afr_by_year = ["2 %", "1.2 %"] }   the last one holds on
//	                { failures = 50, drive_days = 3555491 }
//	hazard_multiplier  0.001 to 1 000; default 1
//	batch_variance  0 to 100; default 0
//	read_error      "1 in 1e15 bits" (1e10 to 1e20) or "none", the default
//	latent_defects  { mean = "9259 h" } or "none", the default
//	transfer        sequential, at the outer track, 1 MB/s to 1 TB/s; required
//	price, power    a number, and watts; without them no costs and no energy
//
//	[[choices]]     1 to 200
//	label, drive    texts; required. drive is the label of a drive model
//	layout          JBOD, RAID 0, RAID 1, RAID 10, RAID 5, RAID 6, RAID 50, RAID 60,
//	                triple parity, or k+m such as "6+3"; required
//	drives          1 to 1 000 in all, hot spares not counted; required
//	groups          default 1; the drives divide evenly
//	hot_spares      0 to 100; default 0. Drives and hot spares must fit the recorder's bays
//	[choices.care], [choices.recorder]  override the site's key by key
//
//	[care]
//	notice, response, restock   times or laws; default 1 h, 24 h, 72 h
//	rebuild_share   0.001 to 1; default 0.5
//	rebuild_floor   rate, at most the drive's transfer; default 20 MB/s
//	controller_limit  rate or "none", the default
//	rebuilds        "serial", the default, or "parallel"
//	unreadable      "skip", the default, or "stop"
//	scrub           time, law or "none", the default
//	restore         time or law, in place of notice, response and rebuild; or "none"
//
//	[hazards]
//	common_cause    { per_year = 0.02, each_drive = 0.5 }, up to 1 000 a year
//	degraded_multiplier  1 to 1 000; default 1
//
//	[recorder]
//	price           number; bays, up to 10 000; idle_power, in watts
//	link            1 Mbit/s to 1000 Gbit/s, of its network; only judged by size
//	power           { failures_per_year = 0.05, restore = "48 h", redundant = false }
//	system_disk     { failures_per_year = 0.01, restore = "24 h", mirrored = false }
//	mains           { outages_per_year = 2, mean = "1.3 h", ups_bridges = "30 min" }
//	swap            "hot", the default, or { powered_down = "30 min" }
//
//	[run]
//	seed            0 to 2^63 − 1; default 1
//	accuracy        0.01 % to 100 %; default 5 %
//	max_trials      1 000 to 1e10 for each choice; default 20 000 000
//
// # A schedule of cameras
//
// cameras = "schedule.csv" or "schedule.xlsx", at the top of the file, takes the
// groups from a spreadsheet with one row for each, read by package schedule: there
// stand the headings and units that it knows. The path is relative to the site
// file and cannot lead out of its folder; for standard input it is relative to
// the directory one is in. Columns that are not known are listed among the
// assumptions, and so are rows of totals, which are not read. A resolution, codec
// or frame rate beside a bit rate is not used.
//
// # Estimated bit rates
//
// Where the bit rate is left out, it is pixels × frames per second × bits per
// pixel of the codec, with a low and a high figure beside the likely one (common
// practice, no source; see [array.Codec]). The likely one counts; what the others
// would make of the demand is told beside it. An estimate is listed among the
// assumptions as a default.
//
// # Laws of time
//
// A time is a fixed length, "48 h", or a table:
//
//	{ exponential = "48 h" }                                    its mean
//	{ weibull = { min = "6 h", scale = "12 h", shape = 2 } }
//	{ lognormal = { median = "24 h", p90 = "72 h" } }
//	{ within = "8 h", hours = "Mon-Fri 08:00-17:00" }           response and restock only
//
// # Ranges
//
// In place of any number or time there may stand what it could be at the least and
// at the most:
//
//	afr = { low = "0.8 %", likely = "1.5 %", high = "3 %" }
//	response = { low = "12 h", likely = { lognormal = { median = "24 h", p90 = "72 h" } }, high = "96 h" }
//
// The likely value is the one that counts, and is listed with the others behind it:
// "1.5 % (0.8 % to 3 %)". All three are required, and numbers are in order. The file
// must be right with either end of each range; there may be 100. [Source.Inputs]
// lists them, and default ranges for what else is uncertain.
//
// # Bounds
//
// Every number has bounds beyond which it says nothing about an array that
// anybody would buy. They are there so that a slip of the pen is found, and so
// that time and memory have an end for whatever is accepted. The error says
// the bound.
//
// # Errors
//
// Each is one line, file:line: key: what was found; what would be right; in a
// schedule its file, sheet and cell stand in place of the line, and the setting in
// place of it all where a file is read with other values; and,
// where something is near, what was perhaps meant. They stand in the order of
// the file. A mistake of TOML in one line ("capacity = 12 TB" without quotes)
// does not hide those in others; one that leaves the rest unreadable, such as a
// header without its bracket, ends the list, and then nothing is said to be
// missing.
package site
