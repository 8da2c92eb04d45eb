// Package schedule reads camera schedules: spreadsheets with a row for each
// group of cameras, as CSV or, read by package workbook, XLSX. [Read] gives the rows
// with their cells under the keys of a site file and with the place of each, so that
// whoever judges the values can say where they stand. What the values mean is not
// judged here.
//
// # Headings
//
// The first row in which two headings or more are known is the row of headings, or
// the one below it that has more of them; rows above are passed over. Columns come in
// any order. Case, points, underscores, blanks at a slash, "per" in place of it and a
// colon at the end do not matter. Each key has many headings, such as
//
//	label              label, name, camera group, location, area, building, floor
//	count              count, quantity, qty, number of cameras, cameras, pcs
//	bitrate            bitrate, bit rate, bandwidth, data rate, average bitrate
//	hours_per_day      hours per day, hours, hrs/day, recording hours
//	activity           activity, motion, share recorded, % motion
//	retention          retention, retention time, storage time, days
//	resolution         resolution, res, image size, megapixels
//	width, height      width, height; both, in pixels, instead of resolution
//	frames_per_second  frames per second, frame rate, fps, images per second
//	codec              codec, compression, encoding
//
// names.go has all of them. Some count only where no other column is of that key, such
// as max. bitrate and description, some only by their unit: "Storage (days)". Of
// several columns for the label the texts are put together: "Main building, Stairs".
//
// A unit stands in the cell ("6 Mbit/s"), in the heading, in brackets or as its
// last word, or in a row of units beneath: "Bitrate (Mbit/s)", "retention days",
// "Activity [%]". That of the cell counts before that of the heading.
//
// # Merged cells
//
// What is merged downwards holds for each of its rows. A label that is all that several
// groups have gets a number behind it. A number of cameras for several groups is
// refused, since nobody can tell how many each has.
//
// # Numbers
//
// A decimal comma is understood. "1,500" is refused, since it may be one and a
// half or a thousand and a half; so is "1.500" in a CSV file parted by
// semicolons. "1.234,5" and "1,234.5" are understood. Of a formula the value
// that was last worked out counts.
//
// # Rows that are no group
//
// Blank rows are passed over, and of merged cells those in which nothing begins. A row
// in which a cell is a word for a total, in a language of Europe, and nothing else, is
// left out, and so is one whose label begins with such a word where it has no retention
// or nothing to tell a bit rate by, and one without a word whose number of cameras is
// that of the groups above. So are footnotes: rows with a single text that has a mark
// or "Note:" before it, spans three columns, or stands below all groups and apart from
// them. A row that only has a label between groups is none of these: what it lacks is
// missed. What is left out is listed, and so are columns that nobody asked for.
//
// # Bounds
//
// Files of at most 16 MiB, unpacked at most 64 MiB and 6 MiB of cells; 10 000
// rows of 256 columns, 400 000 cells in all; 200 sheets, and 60 000 texts, styles
// and names. So a workbook is read, or refused, in about a second and 100 MB. CSV
// is UTF-8, parted by commas, semicolons or tabs. Of a workbook the first sheet
// with a row of headings is read; hidden rows count.
package schedule
