// Package sheets reads records of fleets that are workbooks: between package record, which
// knows no workbooks, and package workbook, which knows no records.
package sheets

import (
	"errors"

	"arrayodds/array/record"
	"arrayodds/array/schedule"
	"arrayodds/array/schedule/workbook"
)

// Read reads the sheets of a fleet's record that is a workbook, for [record.Options].
// The error is of type [record.Errors] where the workbook is at fault.
func Read(data []byte, name string) ([]record.Sheet, error) {
	tables, err := workbook.Tables(data, name, "a workbook with the record alone, or the record saved as CSV")
	if faults, ok := errors.AsType[schedule.Faults](err); ok {
		var errs record.Errors
		for _, f := range faults {
			errs = append(errs, record.Error{File: f.Place, Found: f.Found, Right: f.Right})
		}
		return nil, errs
	}
	var all []record.Sheet
	for _, t := range tables {
		all = append(all, record.Sheet(t))
	}
	return all, err
}
