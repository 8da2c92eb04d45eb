package array_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"

	"pgregory.net/rapid"
)

// What a law writes of itself is read back as the same law by the reader of site
// files, to the digits that it is written with.
func TestLifeIsReadBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 {
			return rapid.Float64Range(low, high).Draw(t, name)
		}
		l := rapid.OneOf(
			rapid.Just[array.Life](array.ConstantRate{AFR: number("rate", 0.001, 5)}),
			rapid.Just[array.Life](array.WeibullLife{Shape: number("shape", 0.3, 8), Scale: number("scale", 1000, 1e7), Min: number("min", 0, 1000)}),
			rapid.Just[array.Life](array.RateByYear{AFR: []float64{number("first", 0.001, 5), number("second", 0, 5)}}),
			rapid.Just[array.Life](array.FieldRecord{Failures: math.Floor(number("failures", 0, 1000)), DriveDays: math.Floor(number("days", 1e6, 1e9))}),
			rapid.Just[array.Life](array.FittedWeibull{Shape: number("shape", 0.3, 8), Scale: number("scale", 1000, 1e7), ShapeError: number("shape error", 0.01, 1), ScaleError: number("scale error", 0.01, 1), Correlation: number("correlation", -0.9, 0.9)}),
		).Draw(t, "law")
		file, err := site.Read(strings.NewReader(fmt.Sprintf(`
service_life = "5 y"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = %s
transfer = "200 MB/s"
[[choices]]
label = "one"
drive = "4 TB"
layout = "JBOD"
drives = 1
`, l.SiteFile())), "life.toml")
		if err != nil {
			t.Fatalf("%s: %v", l.SiteFile(), err)
		}
		back := file.Site.Drives[0].Life
		if fmt.Sprintf("%T", back) != fmt.Sprintf("%T", l) || back.SiteFile() != l.SiteFile() {
			t.Fatalf("%+v is written %s and read back as %+v", l, l.SiteFile(), back)
		}
		said, again := l.About(), back.About()
		if said.Caution == "" || again.Caution != said.Caution || again.Beyond != said.Beyond || again.Recorded != said.Recorded || (again.Rate == nil) != (said.Rate == nil) || len(again.Errors) != len(said.Errors) {
			t.Fatalf("%T is not told of: %+v", l, l.About())
		}
	})
}
