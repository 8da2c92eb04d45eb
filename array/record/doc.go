// Package record reads the record of a fleet: what drives were watched for how
// long, and which of them failed. [Read] gives an [array.Fleet] a label; what is
// made of it is for package sim/fit.
//
// # Forms
//
// The form is told by the headings. Columns may stand in any order and with any
// others beside them; case, and blanks or hyphens for underscores, do not matter.
//
//   - sums: drive_days, failures; label, or age_from and age_to in years, or both
//   - one row a drive, ages in hours: hours, failed; perhaps entered, the age at
//     which watching began, and label
//   - one row a drive, dates: installed, removed (blank: still running at
//     [Options].Until), failed; perhaps observed_from, label
//   - daily snapshots, as the open drive datasets have them: date,
//     serial_number, model, capacity_bytes, failure; perhaps smart_9_raw, the
//     drive's own count of its hours
//
// In the first three a column model stands for label where there is none.
//
// Cells are parted by commas, semicolons or tabs, whichever the headings have
// most of. Where it is not commas, a decimal comma is understood. Cells may stand
// in double quotes. Files packed by gzip are read
// as they are, and so is every .csv, .tsv or .txt of a zip archive, each with
// headings of its own. Of gzip's parts one behind the other, each that begins with
// headings is a text of its own too.
//
// A workbook is read too, by the reader that [Options] has for it: the first sheet with
// the headings of a record, in a row of their own beneath whatever else. Its numbers
// count as they are stored, days among them.
//
// # Dates
//
// Dates are written 2025-09-30. Of drives by date they may also be written with the
// year last, by points, slashes or hyphens. Then a record must tell by one date at
// least, such as 30.09.2025, whether the day or the month comes first, and none may tell
// otherwise; which it is stands among the notes. Where every date could be either, that
// is an error.
//
// # What is presumed
//
// A drive runs all the time from its first day to its last. Of dates, the last
// day is not counted where it is the day of removal, and a drive removed on the
// day it was installed ran half a day. Of snapshots, each day from the first to
// the last one seen is counted, gaps and repetitions alike: so the order of rows
// does not matter. A drive that vanishes without a failure is censored at its
// last day; what is seen of it after a failure is left out. Its age when first
// seen is its smart_9_raw less the 24 hours of that day; without it, it is taken
// for new, and a note says so. Readings above 50 years are passed over.
//
// # Bounds
//
// Rows are streamed, so a file may be of any size. What is kept is a few numbers
// a drive: at most 2 million drives, 10 000 labels, 1 MiB and 10 000 headings a
// row. Packed data may not unpack to more than 300 times its size, nor a million
// rows be blank one after the other. Snapshots are
// split by code of our own: on rows as wide as those of the open datasets it is
// six times as fast as encoding/csv alone (BenchmarkSnapshots).
//
// # Errors
//
// What is wrong is [Errors], each with file, line and column, at most 200 of
// them. Rows that are wrong in the same way are counted at the first, and so are those
// of a kind of which eight are listed. A failing disk is an error of another kind.
package record
