// Package xlsx writes workbooks of plain tables, as ECMA-376 part 1 has them.
//
// Each sheet is a heading, which is frozen, with rows beneath it; columns have a width
// and a number format. Words are never formulas. There is no time in a workbook: the
// same sheets are the same bytes.
//
// A library that can do all of a workbook adds some 3 MB, packed, to a program that is
// to run in a page, for what is two hundred lines here. Tests read with it what is
// written here.
package xlsx
