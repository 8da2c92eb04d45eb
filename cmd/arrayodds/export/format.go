package export

import (
	"fmt"
	"io"

	"arrayodds/charts/choose"
	"arrayodds/charts/compare"
	"arrayodds/charts/fit"
	"arrayodds/charts/fleet"
	"arrayodds/charts/lesson"
	"arrayodds/charts/now"
	"arrayodds/charts/plan"
	"arrayodds/charts/rank"
	"arrayodds/charts/replay"
	onepage "arrayodds/charts/sheet"
	"arrayodds/charts/size"
	"arrayodds/charts/vary"
)

// Formats are all formats that commands write their results in. A new one is a row
// here, and the functions that it names. A command has a flag for each format that
// takes its result.
var Formats = []Format{
	{Name: "html", Usage: "write the page to `FILE`", Always: true, Writers: []Writer{
		Of(compare.Write), Of(choose.Write), Of(vary.Write), Of(rank.Write), Of(lesson.Write), Of(replay.Write), Of(fit.Write), Of(plan.Write), Of(now.Write), Of(now.WriteDrill), Of(fleet.Write),
	}, Asked: []Writer{Of(size.Write)}},
	{Name: "sheet", Usage: "write one A4 page to hand to a customer, as HTML, to `FILE`", Writers: []Writer{Of(onepage.Write), Of(onepage.WriteSearch)}},
	{Name: "json", Usage: "write every figure as JSON to `FILE`", Writers: []Writer{Of(compareJSON), Of(chooseJSON), Of(varyJSON), Of(rankJSON), Of(fitJSON), Of(sizeJSON), Of(planJSON), Of(nowJSON), Of(drillJSON), Of(fleetJSON)}},
	{Name: "csv", Usage: "write the figures as rows of CSV to `FILE`", Writers: []Writer{Of(compareCSV), Of(chooseCSV), Of(varyCSV), Of(rankCSV), Of(sizeCSV), Of(fleetCSV)}},
	{Name: "xlsx", Usage: "write a workbook to `FILE`", Binary: true, Writers: []Writer{Of(compareXLSX), Of(fleetXLSX)}},
}

// Format is a format of output files.
type Format struct {
	Name    string   // of the flag that asks for it, without dashes
	Usage   string   // of that flag
	Always  bool     // written beside the input where no flag names a file, of what Writers take
	Binary  bool     // no text, and so nothing for a terminal
	Writers []Writer // one for each type of result that it can write
	Asked   []Writer // the same, for types of which a file is only written where a flag names it
}

// FormatsOf returns the formats that a result can be written in. They depend on its
// type alone.
func FormatsOf(result any) []Format {
	var all []Format
	for _, f := range Formats {
		if f.writer(result) == nil {
			continue
		}
		f.Always = f.Always && taking(f.Writers, result) != nil
		all = append(all, f)
	}
	return all
}

// Write writes a result in this format. It returns an error if the format does not
// take results of its type.
func (f Format) Write(w io.Writer, result any) error {
	writer := f.writer(result)
	if writer == nil {
		return fmt.Errorf("no %s can be written of a %T", f.Name, result)
	}
	return writer.write(w, result)
}

func (f Format) writer(result any) Writer {
	if w := taking(f.Writers, result); w != nil {
		return w
	}
	return taking(f.Asked, result)
}

// taking returns the writer that takes a result; nil where none does.
func taking(writers []Writer, result any) Writer {
	for _, writer := range writers {
		if writer.takes(result) {
			return writer
		}
	}
	return nil
}

// Writer writes results of one type, or of all types with some methods. [Of] makes
// one of a function.
type Writer interface {
	takes(result any) bool
	write(w io.Writer, result any) error
}

// Of returns a writer of results of type R, which may be an interface.
func Of[R any](write func(io.Writer, R) error) Writer { return writerOf[R](write) }

type writerOf[R any] func(io.Writer, R) error

func (f writerOf[R]) takes(result any) bool {
	_, ok := result.(R)
	return ok
}

func (f writerOf[R]) write(w io.Writer, result any) error { return f(w, result.(R)) }
