// Package unit reads and writes quantities as people write them: "12 TB",
// "210 MB/s", "6 Mbit/s", "30 d", "1.5 %", "7 W", "1 in 1e15 bits",
// "Mon-Fri 08:00-17:00". What it gives is always in the one unit that the rest
// of the program computes in: bytes, bytes/s, bit/s, hours, shares of one, watts.
//
// # What is told apart
//
// TB is 10^12 bytes and TiB is 2^40 bytes: a tenth more. A B is a byte and a b,
// or "bit", is a bit: an eighth. So the case of that letter is never guessed:
// "12 Tb" and "12 tb" are errors that say "12 TB". "KB" is an error too, since
// half of its writers mean 1000 and half 1024.
//
// What cannot be misread is accepted: no blank or several between number and
// unit, "2 hours" for "2 h", "10 tB" for "10 TB", "1 000 000 h" and
// "1_000_000 h" for a million hours.
//
// # What is refused
//
// NaN, infinities, negative numbers, hexadecimal, decimal commas, a number
// without a unit, a unit of another kind, and whatever does not fit a float64.
// Every error is an [Error]: what was found and what would be right.
//
// # What is written
//
// FormatSize and its like show three digits in the unit that people would take. The
// unit is chosen by what the quantity rounds to ([Scale]): 59.97 s is "1 min". What
// is written can be read, and is then written the same again.
//
// # Why not a library
//
// Libraries for sizes are lax on purpose: they take "12 T", "12tb" or "12" and
// make the best of it, which here would be a silent factor of 8, of 1.1 or of
// 10^12. The parser below is a number, a blank and a table of units.
package unit
