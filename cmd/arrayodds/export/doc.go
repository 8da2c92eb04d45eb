// Package export writes the results of commands to files. [Formats] lists the
// formats, with one function for each type of result that a format can be written
// of; a new format is a row there.
//
//   - html: the page of the command, by a package below charts.
//   - sheet: one page of a comparison or a search to hand to a customer, by package charts/sheet.
//   - json: every figure, for programs. A format number goes with it, and within it
//     a key keeps its meaning and its place.
//   - csv: one row a choice, or a choice and value, for whatever reads tables.
//   - xlsx: a workbook of the choices, the loss over the years, the assumptions and
//     the cautions, in which figures are numbers.
//
// Each function writes to an [io.Writer] and opens no file. A figure that is not
// known (a cost without prices, what rests on cameras at a site without them, every
// estimate of a choice that was too busy to be simulated and so stopped by "bound")
// is null or an empty cell, never 0 and never NaN. Any other NaN, and an infinite
// figure that is not an open end of an interval, is an error. The same result gives
// the same bytes.
//
// # Keys and columns
//
// A key of the JSON stands once, in the function that makes its object ([object]),
// in the order in which it is written. Struct tags on the results would not do: one
// object takes its figures from the choice, its sizing and its simulation in turn,
// in other units than the program computes in, and whether a figure is known
// depends on the site. So what the files look like stays here, and the results know
// nothing of it.
//
// A column of a table stands once too, as a row of a list ([columns]), for CSV and
// workbook alike.
package export
