// Package workbook reads camera schedules that are XLSX workbooks, for package schedule,
// which knows of none, and the tables of records.
//
// It reads the parts that it needs itself, as ECMA-376 part 1 has them: titles of
// sheets, values of cells, texts, number formats, merged cells. A library that knows all
// of a workbook adds some 3 MB, packed, to a program that is to run in a page. The small
// ones make texts of dates and hide the number format, by which 0.5 is 50 %; and they
// read in a goroutine of their own, where a number out of place in a file ends the
// program. Tests hold what is read here against a large one.
package workbook
