package main

import (
	"errors"
	"os"
	"path/filepath"

	"arrayodds/array/schedule/workbook"
	"arrayodds/array/site"
	"arrayodds/array/state/folder"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/fleet"
)

// runFleet answers for the arrays of a folder.
func (p program) runFleet(a *arguments) error {
	for _, name := range []string{"state", "choice", "example", "drill"} {
		if a.IsSet(name) {
			a.wrong("--%s is for one array and --fleet is for many; right would be one of them", name)
		}
	}
	if a.NArg() > 0 {
		a.wrong("--fleet takes a folder and no site file beside it, found %q: each state in the folder has its own", a.Args().Slice())
	}
	opt := a.read.Options(nil)
	if !a.IsSet("seed") {
		opt.Seed = fleet.DefaultSeed
	}
	if !a.IsSet("accuracy") {
		opt.Accuracy = fleet.DefaultAccuracy
	}
	if !a.IsSet("max-trials") {
		opt.MaxTrials = fleet.DefaultMaxTrials
	}
	dir := a.String("fleet")
	read, err := p.folder(a, dir)
	if err != nil {
		return err
	}
	var inputs []input
	if read != nil {
		for _, o := range read.Opened {
			inputs = append(inputs, input{o.Info, filepath.Join(dir, filepath.FromSlash(o.Path))})
		}
	}
	outs := p.outputs(a, fleet.Result{}, fleetPage(dir), inputs...)
	if err := a.err(); err != nil {
		return err
	}
	bar := console.NewProgress(p.err)
	opt.Progress = bar.Show()
	result, err := fleet.Ask(a.ctx(), fleet.Asked(fleetName(dir), read, opt))
	bar.Clear() // before anything is printed
	if err != nil {
		return asUsageError(err)
	}
	return writeResult(a.ctx(), p, outs, result, print.Fleet)
}

// folder reads the folder of --fleet, and notes what is wrong with it.
func (p program) folder(a *arguments, dir string) (*folder.Folder, error) {
	if dir == "" {
		a.wrong("--fleet needs the name of a folder")
		return nil, nil
	}
	if dir == stdio {
		a.wrong("--fleet reads a folder, which standard input is not")
		return nil, nil
	}
	// A root, so that no link leads out of it.
	root, err := os.OpenRoot(dir)
	if err != nil {
		a.wrong("--fleet %s: %v; right would be a folder", dir, cause(err))
		return nil, nil
	}
	defer root.Close() // only read from
	read, err := folder.Read(a.ctx(), root.FS(), filepath.ToSlash(filepath.Clean(dir)), site.Workbooks(workbook.Read))
	if errs, ok := errors.AsType[folder.Errors](err); ok {
		return nil, a.note(usageErrors(errs.Lines())) // each begins with its place
	}
	return read, err
}

// cause returns an error without the path that it names.
func cause(err error) error {
	if e, ok := errors.AsType[*os.PathError](err); ok {
		return e.Err
	}
	return err
}

// fleetName returns what a folder is called: its own name, whatever leads there.
func fleetName(dir string) string {
	if full, err := filepath.Abs(dir); err == nil {
		dir = full
	}
	return filepath.Base(dir)
}

// fleetPage returns where the page of a fleet goes that no flag sends elsewhere: beside the
// folder, with its name; for one that has none as it is written, such as ".", into the
// folder that the user is in.
func fleetPage(dir string) string {
	clean := filepath.Clean(dir)
	switch base := filepath.Base(clean); base {
	case ".", "..", string(filepath.Separator):
		return "fleet-now.html"
	default:
		return clean + "-now.html"
	}
}
