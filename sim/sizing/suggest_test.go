package sizing

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/rewrite"

	"pgregory.net/rapid"
)

// Whatever is asked for, the suggestions go into the site file, are read again as
// they were meant, hold the demand and fit the bays.
func TestSuggestionsAreRead(t *testing.T) {
	const text = "# no more than this\nservice_life = \"5 y\"\n"
	rapid.Check(t, func(t *rapid.T) {
		f := &site.File{Site: array.Site{Cameras: []array.Cameras{{
			Label: "Gate \"\\", Count: rapid.IntRange(1, 500).Draw(t, "count"), BitRate: 1e5 * float64(rapid.IntRange(1, 200).Draw(t, "rate")),
			HoursPerDay: 24, Activity: 1, Retention: 24 * float64(rapid.IntRange(1, 90).Draw(t, "days")),
		}}}, Care: array.Care{RebuildFloor: 2e7, RebuildShare: 0.5}}
		f.Schedule = "x.csv"
		in := text + "cameras = \"x.csv\"\n"
		for range rapid.IntRange(1, 3).Draw(t, "models") {
			d := array.Drive{Label: "a \"drive\" " + string(rune('A'+len(f.Site.Drives))), Capacity: 1e12 * float64(rapid.IntRange(1, 30).Draw(t, "TB")), Transfer: 2e8, Price: math.NaN(), Power: math.NaN()}
			if rapid.Bool().Draw(t, "priced") {
				d.Price = float64(rapid.IntRange(50, 900).Draw(t, "price"))
			}
			f.Site.Drives = append(f.Site.Drives, d)
			in += "[[drives]]\nlabel = '" + d.Label + "'\ncapacity = \"" + fmt.Sprint(d.Capacity/1e12) + " TB\"\nlife = { afr = \"1 %\" }\ntransfer = \"200 MB/s\"\n"
		}
		bays := rapid.SampledFrom([]int{0, 4, 12, 60}).Draw(t, "bays")
		spares := rapid.IntRange(0, 2).Draw(t, "spares")
		found := Suggest(f, bays, spares)
		if len(found.Choices) == 0 {
			return
		}
		out := rewrite.WithChoices([]byte(in), f.Site.Cameras, found.Choices)
		g, err := site.Read(bytes.NewReader(out), "")
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		if len(g.Site.Choices) != len(found.Choices) {
			t.Fatalf("%d choices of %d", len(g.Site.Choices), len(found.Choices))
		}
		for i, c := range g.Site.Choices {
			want := found.Choices[i]
			z, err := g.Site.Size(c)
			if err != nil || !z.Meets || bays > 0 && z.BaysUsed > bays || c.HotSpares != spares || c.Layout != want.Layout || c.Drives != want.Drives || c.Groups != want.Groups || c.Drive.Label != want.Drive.Label {
				t.Fatalf("%+v is read as %+v, %+v %v", want, c, z, err)
			}
		}
	})
}
