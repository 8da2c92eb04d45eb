// Package schedule reads camera schedules: spreadsheets with a row for each
// group of cameras, as CSV or, read by package workbook, XLSX. [Read] gives the rows
// with their cells under the keys of a site file and with the place of each, so that
// whoever judges the values can say where they stand. What the values mean is not
// judged here.
//
// # Headings
//
// The first row in which two headings or more are known is the row of headings;
// rows above it are passed over. Columns come in any order. Case, underscores
// and a colon at the end do not matter. Each key has several headings:
//
//	label              label, name, group, camera group, location, area, zone
//	count              count, quantity, qty, number, number of cameras, cameras
//	bitrate            bitrate, bit rate, stream rate, bandwidth, rate
//	hours_per_day      hours per day, hours a day, hours/day, h/day, recording hours
//	activity           activity, motion, share recorded, recorded
//	retention          retention, retention time, retention period
//	resolution         resolution
//	width, height      width, height; both, in pixels, instead of resolution
//	frames_per_second  frames per second, frame rate, fps
//	codec              codec, compression, encoding
//
// A unit stands in the cell ("6 Mbit/s") or in the heading, in brackets or as its
// last word: "Bitrate (Mbit/s)", "retention days", "Activity [%]". That of the
// cell counts before that of the heading.
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
// Blank rows are passed over. A row in which a cell says total, subtotal, grand
// total or sum, and nothing else, is left out, and so is one whose label begins
// with such a word where it has no retention or nothing to tell a bit rate by.
// They are listed, and so are columns that nobody asked for.
//
// # Bounds
//
// Files of at most 16 MiB, unpacked at most 64 MiB and 6 MiB of cells; 10 000
// rows of 256 columns, 400 000 cells in all; 200 sheets, and 60 000 texts, styles
// and names. So a workbook is read, or refused, in about a second and 100 MB. CSV
// is UTF-8, parted by commas, semicolons or tabs. Of a workbook the first sheet
// with a row of headings is read; hidden rows count.
package schedule
