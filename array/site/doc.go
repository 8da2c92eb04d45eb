// Package site reads the file that describes a site: its cameras, the drives
// and arrays that could be bought, and how the place looks after them.
// [Read] gives a [File], or every error of the text at once; package rewrite
// writes the file with other choices in it. [Open] keeps the file to be read again with
// other values in it, as package axis does.
//
// # The file
//
// It is TOML, of at most 4 MiB. Values with a unit are texts in quotes
// ("12 TB", "30 d"), as package unit reads them; a number without its unit is an
// error. A key that is not known is an error, never passed over. This is about the
// least that a file can say:
//
//	service_life = "5 y"
//
//	[[cameras]]
//	count = 24
//	bitrate = "6 Mbit/s"
//	retention = "30 d"
//
//	[[drives]]
//	label = "12 TB"
//	capacity = "12 TB"
//	life = { afr = "1.5 %" }
//	transfer = "210 MB/s"
//
//	[[choices]]
//	label = "8 x 12 TB, double parity"
//	drive = "12 TB"
//	layout = "RAID 6"
//	drives = 8
//
// Tables that may be added are [care], [hazards], [recorder], [document], [sizing],
// [goal], [run] and [[log]]; a choice may override the site's care and recorder key by key, under
// [choices.care] and [choices.recorder].
//
// # The table of keys
//
// What each key takes, its bounds, its default, what it excludes and what it means
// stand in one table, which [Keys] returns and package array/reference prints:
//
//	arrayodds help site
//
// The reader takes bounds and defaults from there. Each part of the table stands in
// the file that reads it, such as cameras.go. A new key is a row there and a line in
// the function below it; a new law of life or of time is a row in package laws, with its
// keys and its reader.
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
// # A log
//
// [[log]] says what happened to the drives of a model at the site, in figures or in a
// record beside the file, which package evidence reads; it is opened as a schedule is. The
// law of the drive is then the one that these failures leave, in every command, and
// [array.Drive].Log says what was made of what. It is worked out when the file is read for
// the first time, from the ranges of the rate or from what is taken where there are none.
// Read again with other values, what the log left stays, and a hazard multiplier that is
// set multiplies it; but a rate that is set (the keys afr, mtbf, scale, afr_by_year,
// failures and drive_days of a life) is what is tried, and the log does not update it.
//
// # What is shown and judged
//
// currency, [document], [goal] and [sizing] bear on no figure: they say what sums are
// in, what a page for a customer carries, what choices are held against, and how wide
// a group is by custom. They have no ranges and cannot be varied. The logo under [document] is opened as a schedule
// is; whether it is PNG or JPEG its first bytes tell, and not its name.
//
// # Estimated bit rates
//
// Where the bit rate is left out, it is pixels × frames per second × bits per
// pixel of the codec, with a low and a high figure beside the likely one (common
// practice, no source; see [array.Codec]). The likely one counts; what the others
// would make of the demand stands beside it. An estimate is listed among the
// assumptions as a default.
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
// the bound. A file has at most 4 MiB, 50 000 values, and 32 tables and lists one
// within the other.
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
