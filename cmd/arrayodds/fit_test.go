package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/fit"

	"github.com/xuri/excelize/v2"
)

func TestRecordPage(t *testing.T) {
	for path, want := range map[string]string{
		"-": "report.html", "drives.csv": "drives.html", "a/2025.q3.CSV.gz": "a/2025.q3.html", "x.zip": "x.html", "fleet.XLSX": "fleet.html", "x": "x.html", "x.dat": "x.dat.html",
	} {
		if got := recordPage(path); got != want {
			t.Errorf("the page of %s goes to %s, want %s", path, got, want)
		}
	}
}

// The line to paste is one that a site file takes, and means what was found.
func TestLifeCanBePasted(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	ageing := array.Fleet{Label: "ageing"}
	for range 300 {
		ageing.Drives = append(ageing.Drives, array.Observed{Hours: 90000 * math.Sqrt(r.ExpFloat64()), Failed: true})
	}
	for _, found := range []fit.Result{
		fit.Fleet(ageing),
		fit.Fleet(array.Fleet{Sums: []array.Counted{{DriveDays: 1416127, Failures: 21}}}),
		fit.Fleet(array.Fleet{Sums: []array.Counted{{DriveDays: 800.25}}}),
	} {
		line := "life = " + found.Life.SiteFile()
		file, err := site.Read(strings.NewReader(strings.Replace(threeChoices, `life = { afr = "1 %" }`, line, 1)), "x.toml")
		if err != nil {
			t.Errorf("%s: %v", line, err)
			continue
		}
		switch got := file.Site.Choices[0].Drive.Life.(type) {
		case array.FittedWeibull:
			want := found.Life.(array.FittedWeibull)
			if math.Abs(got.Shape/want.Shape-1) > 1e-4 || math.Abs(got.Scale/want.Scale-1) > 1e-5 ||
				math.Abs(got.ShapeError/want.ShapeError-1) > 1e-2 || math.Abs(got.ScaleError/want.ScaleError-1) > 1e-2 ||
				math.Abs(got.Correlation-want.Correlation) > 1e-2 {
				t.Errorf("%s is read as %+v, found was %+v", line, got, want)
			}
		default:
			if got != found.Life {
				t.Errorf("%s is read as %+v, found was %+v", line, got, found.Life)
			}
		}
	}
}

func TestInterruptedFitWritesNothing(t *testing.T) {
	t.Chdir(t.TempDir())
	ctx, interrupt := context.WithCancel(t.Context())
	interrupt()
	var out, errOut strings.Builder
	p := program{in: strings.NewReader("hours,failed\n5000,1\n"), out: &out, err: &errOut}
	if status := p.run(ctx, []string{"arrayodds", "fit", "-"}); status != exitFailed || !strings.Contains(errOut.String(), "nothing was written") {
		t.Errorf("status %d: %s", status, errOut.String())
	}
	if names := filesHere(t); names != "" {
		t.Errorf("left behind: %s", names)
	}
}

// Every label of a wide record comes out, the first of them by name.
func TestManyLabelsAreTold(t *testing.T) {
	t.Chdir(t.TempDir())
	var text strings.Builder
	text.WriteString("label,hours,failed\n")
	for i := range 50 {
		fmt.Fprintf(&text, "model %02d,30000,1\nmodel %02d,40000,0\n", i, i)
	}
	if err := os.WriteFile("many.csv", []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	var out, errOut strings.Builder
	p := program{in: strings.NewReader(""), out: &out, err: &errOut}
	if status := p.run(t.Context(), []string{"arrayodds", "fit", "many.csv"}); status != exitOK {
		t.Fatal(errOut.String())
	}
	if n := strings.Count(out.String(), "\nlife = "); n != 50 {
		t.Errorf("%d lines to paste, want 50", n)
	}
	if !strings.Contains(out.String(), "! model 00, model 01, model 02, model 03, model 04 and 45 more: Fewer than 10 failures") {
		t.Errorf("%s", out.String())
	}
	if _, err := os.Stat(filepath.Join(".", "many.html")); err != nil {
		t.Error(err)
	}
}

// A record that is a workbook is read from its file, and its page goes beside it.
func TestFitOfAWorkbook(t *testing.T) {
	t.Chdir(t.TempDir())
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range [][]any{{"hours", "failed"}, {5000, 1}, {6000, 0}} {
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &row); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SaveAs("fleet.xlsx"); err != nil {
		t.Fatal(err)
	}
	run := func(in io.Reader, path string) (int, string) {
		var out strings.Builder
		p := program{in: in, out: &out, err: &out}
		return p.run(t.Context(), []string{"arrayodds", "fit", path}), out.String()
	}
	if status, text := run(strings.NewReader(""), "fleet.xlsx"); status != exitOK || !strings.Contains(text, "fleet.xlsx: one row a drive, ages, 2 rows") || filesHere(t) != "fleet.html fleet.xlsx" {
		t.Errorf("status %d: %s\n%s", status, text, filesHere(t))
	}
	data, err := os.ReadFile("fleet.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("broken.xlsx", data[:len(data)/2], 0o644); err != nil {
		t.Fatal(err)
	}
	if status, text := run(strings.NewReader(""), "broken.xlsx"); status != exitUsage || strings.Count(text, "\n") != 1 {
		t.Errorf("status %d: %s", status, text)
	}
}
