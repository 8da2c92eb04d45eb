// Package workbook reads camera schedules that are XLSX workbooks, for package schedule,
// which knows of none: so whoever has no use for them does without the library.
package workbook
