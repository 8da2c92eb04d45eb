package size

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/sizing"
)

// sample is an invented site that has everything such a page must show: estimated bit
// rates, room to grow, hot spares, licences, limits that are exceeded, a drive without a
// price, layouts that do not fit and groups wider than is customary.
func sample(bays int) sized {
	f := &site.File{Care: array.Care{RebuildFloor: 1e7, RebuildShare: 0.5, Scrub: array.Fixed{Hours: 336}},
		Recorder: &array.Recorder{Price: 2400, Bays: bays, Link: 1e9, IdlePower: 90, WriteLimit: 65e6, Licences: &array.Licences{Included: 8, Each: 45}},
		Site: array.Site{Name: "Heron lock", ServiceLife: 43800, Growth: 0.2, Currency: "EUR", Cameras: []array.Cameras{
			{Label: "Lock", Count: 40, BitRate: 10e6, HoursPerDay: 24, Activity: 1, Retention: 720},
			{Label: "Weir", Count: 60, BitRate: 1.296e6, HoursPerDay: 12, Activity: 0.5, Retention: 336, Picture: array.Picture{Pixels: 1920 * 1080, FramesPerSecond: 12.5, Codec: array.H265}},
		}}}
	for _, d := range []array.Drive{
		{Label: "14 TB", Capacity: 14e12, Price: 300, Power: 7, Rated: 180e12},
		{Label: "20 TB", Capacity: 20e12, Price: 420, Power: 8, Rated: 5500e12},
		{Label: "a slow one", Capacity: 20e12, Transfer: 1e6},
		{Label: "22 TB", Capacity: 22e12, Price: math.NaN(), Power: math.NaN()},
	} {
		d.Life, d.HazardMultiplier = array.ConstantRate{AFR: 0.01}, 1
		if d.Transfer == 0 {
			d.Transfer = 2e8
		}
		f.Site.Drives = append(f.Site.Drives, d)
	}
	return sized{sizing.Suggest(f, 0, 1)}
}

func TestWhatASizePageSays(t *testing.T) {
	t.Parallel()
	text := chartstest.CheckPage(t, func() page.Contents { return sample(16).contents() },
		"100 cameras need 132.5 TB (and 20 % room to grow: 159 TB), written at 52.43 MB/s on average. The bit rates are estimated.",
		"Cheapest in a layout that survives no failed drive: 1 · JBOD, ",
		"Cheapest in a layout that survives 2 failed drives of a group: ",
		"rated for: “14 TB”.",
		"at the peak, of the recorder's limit of 65 MB/s: at the high end it is too much.",
		"Designs that hold it in 16 bays", "Layouts that do not fit, and what would be enough", "Designs that hold it and do not fit",
		"estimated: 648 kbit/s to 2.59 Mbit/s",
		"With 1 hot spare beside the drives", "for the licences of 92 cameras",
		"wider than 8, which is customary",
		"TB a year: ", "not rated", "a slow one is left out",
		"1 more camera of Weir", "label = &#34;RAID 6, ",
	)
	if strings.Contains(text, "IT IS") {
		t.Error("the page cries")
	}
	for _, without := range []struct {
		bays int
		says []string
	}{
		{6, []string{"Nothing fits in 6 bays", "The most is held by JBOD, which reaches", "too few bays"}},
		{0, []string{"Designs that hold it<"}},
	} {
		chartstest.CheckPage(t, func() page.Contents { return sample(without.bays).contents() }, without.says...)
	}
	bare := sample(16)
	for i := range bare.Fittings {
		bare.Fittings[i].Sizing.Purchase, bare.Fittings[i].Sizing.Watts = math.NaN(), math.NaN()
	}
	chartstest.CheckPage(t, func() page.Contents { return bare.contents() }, "gives no prices of drives", "Fewest drives in a layout that survives 1 failed drive of a group: ")
}

// A suggestion has one number throughout the page, and stands first.
func TestSuggestionsKeepTheirNumbers(t *testing.T) {
	t.Parallel()
	z := sample(20)
	rows := z.designTables()[0].Rows
	if len(rows) <= len(z.Choices) {
		t.Fatalf("%d rows and %d suggestions", len(rows), len(z.Choices))
	}
	for i, r := range rows {
		if r.Mark.Number != i+1 || i < len(z.Choices) && r.Mark.Label != z.Choices[i].Label {
			t.Errorf("row %d is %+v", i, r.Mark)
		}
	}
}

func hostile() sized {
	z := sample(16)
	z.Site.Name = chartstest.Hostile
	for i := range z.Site.Cameras {
		z.Site.Cameras[i].Label = chartstest.Hostile
	}
	for i := range z.Fittings {
		z.Fittings[i].Choice.Label, z.Fittings[i].Drive.Label = chartstest.Hostile, chartstest.Hostile
		z.Fittings[i].Choice.Drive.Label = chartstest.Hostile
	}
	for i := range z.Short {
		z.Short[i].Choice.Drive.Label = chartstest.Hostile
	}
	for i := range z.Choices {
		z.Choices[i].Label, z.Choices[i].Drive.Label = chartstest.Hostile, chartstest.Hostile
	}
	z.LeftOut = []string{chartstest.Hostile}
	return z
}

func TestNoLabelIsMarkup(t *testing.T) {
	t.Parallel()
	chartstest.CheckNoMarkup(t, hostile().contents())
}

func TestInBrowser(t *testing.T) {
	chartstest.CheckInBrowser(t,
		chartstest.PageCase{Name: "hostile labels", Contents: hostile().contents(), Drawings: 1, Shapes: 5, Texts: 6, TipOf: "price", Tip: "to buy"},
		chartstest.PageCase{Name: "sizing", Contents: sample(16).contents(), Drawings: 1, Shapes: 5, Texts: 6, TipOf: "price", Tip: "to buy"},
	)
}
