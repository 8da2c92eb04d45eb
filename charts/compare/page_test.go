package compare

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
)

// sampleReport is the invented comparison as its page draws it.
func sampleReport() report { return newReport(chartstest.Sample()) }

// inFileOrder is the same with the choices as in the file.
func inFileOrder() report {
	r := report{Comparison: chartstest.Sample()}
	r.answer = answer.Of(r.Comparison)
	for i := range r.Outcomes {
		r.places = append(r.places, i)
	}
	return r
}

func hostileReport() report {
	r := inFileOrder()
	r.Site.Name, r.Site.Currency = chartstest.Hostile, "<b>&amp;'"
	for i := range r.Site.Cameras {
		r.Site.Cameras[i].Label = chartstest.Hostile
	}
	for i := range r.Outcomes {
		r.Outcomes[i].Choice.Label = chartstest.Hostile
		r.Outcomes[i].Choice.Drive.Label = chartstest.Hostile
		r.Outcomes[i].Result.Warnings = []string{chartstest.Hostile}
	}
	r.Assumptions = []site.Assumption{{Path: chartstest.Hostile, Text: chartstest.Hostile}}
	r.answer = answer.Of(r.Comparison)
	r.places = r.answer.Order
	return r
}

func TestLabelsAreText(t *testing.T) {
	t.Parallel()
	r := hostileReport()
	chartstest.CheckNoMarkup(t, r.contents())
	text := chartstest.Render(t, r.contents(), chartstest.StandIn)
	if n := strings.Count(text, "<script"); n != 2+len(r.charts()) {
		t.Errorf("the page has %d script elements, want the chart script, the page's own and one for each of %d charts", n, len(r.charts()))
	}
	for _, c := range r.charts() {
		if bytes.ContainsAny(c.Options, "<>&") {
			t.Errorf("options of %q hold markup", c.ID)
		}
	}
}

func TestNoCamerasNoPrices(t *testing.T) {
	t.Parallel()
	c := chartstest.Sample()
	c.Site.Cameras = nil
	for i := range c.Outcomes {
		o := &c.Outcomes[i]
		o.Sizing.Purchase, o.Choice.Drive.Price = math.NaN(), math.NaN()
		o.Sizing.Retention, o.Sizing.Held, o.Sizing.Meets = math.NaN(), nil, true
		o.Result.HasCameras = false
	}
	r := newReport(c)
	chartstest.CheckPage(t, func() page.Contents { return r.contents() },
		"Which of 9 choices keeps its footage best over 5 years?",
		"The site file gives no prices, so risk cannot be set against cost",
		"This rests on the cameras",
		"The camera-days rest on cameras",
		"drives fewer", "It takes 4 drives",
	)
}

// TestSums: every sum has its currency, or is in the site's, and the cost of the
// service life is, by hand, 2 400 and 8 × 290 to buy, 8 × 0.075 drives at 290 in place
// of those that fail, and 90 and 8 × 7 W over five years at 0.25 a kWh.
func TestSums(t *testing.T) {
	t.Parallel()
	r := sampleReport()
	text := chartstest.CheckPage(t, func() page.Contents { return r.contents() },
		"4 720 EUR to buy", "purchase, in EUR", "Purchase<small>EUR", "EUR, over the life",
		"Cost of the service life<small>EUR", "and the energy at 0.25 EUR a kWh", "6 493")
	if strings.Contains(text, "site's currency") {
		t.Error("the site's currency has no name")
	}
	c := chartstest.Sample()
	c.Site.Currency, c.Site.EnergyPrice = "", math.NaN()
	r = newReport(c)
	text = chartstest.CheckPage(t, func() page.Contents { return r.contents() },
		"4 720 to buy", "purchase, in the site's currency", "energy is not in it, as the site file does not price it", "4 894")
	if strings.Contains(text, "EUR") {
		t.Error("a currency that the site does not give")
	}
}

func TestWhatThePageSays(t *testing.T) {
	t.Parallel()
	text := chartstest.CheckPage(t, func() page.Contents { return sampleReport().contents() },
		"All figures",
		"Chance of losing footage, year by year",
		"always exposed",
		"does not meet the demand",
		"Warning: three trials carry half of the loss chance",
		"budget used up",
		"RAID is no backup",
		"no holidays",
		"local law on retention and privacy",
		"qualified people",
		"<em>default</em>",
		"<strong>fewer than 1 of 10 000</strong><span>1 in 2.4 million</span>",
	)
	if n := strings.Count(text, "Warning: three trials"); n < 6 {
		t.Errorf("the warning stands at %d places, want it with the summary and every table of its figures", n)
	}
	plain := sampleReport()
	plain.Plain = true
	plain.Outcomes[0].Result.LossChance = estimate.Estimate{High: 3e-4, RelativeError: 1}
	chartstest.CheckPage(t, func() page.Contents { return plain.contents() }, "not seen: at most 1 in 3 300", "life by life, without branching")
}

// TestRecordInterval: what the record leaves open is told apart from the
// simulation's interval, in words and in the table, and no finer than it is
// known.
func TestRecordInterval(t *testing.T) {
	t.Parallel()
	r := sampleReport()
	for _, c := range []struct {
		span sim.Span
		want string
	}{
		{sim.Span{Low: 1.0123e-5, High: 4.0321e-4}, "1 in 99 000 to 1 in 2 500"},
		{sim.Span{Low: 1.4169e-4, High: 1.4188e-4}, "by less than 10 %"},
	} {
		r.Outcomes[0].Result.Record = &c.span
		text := chartstest.Render(t, r.contents(), "")
		if got := strings.Count(text, c.want); got < 2 {
			t.Errorf("%+v: %q is on the page %d times, want it in the summary and in the table", c.span, c.want, got)
		}
		if !strings.Contains(text, "Left open by the record") {
			t.Error("the table has no column for it")
		}
	}
}

// A choice that holds what is due without the room to grow that the site asks for does
// not meet the demand, and the page says why; licences are named among what is bought.
func TestGrowthAndLicences(t *testing.T) {
	t.Parallel()
	c := chartstest.Sample()
	c.Site.Growth = 9
	for i := range c.Outcomes {
		o := &c.Outcomes[i]
		o.Sizing.Meets = false
		recorder := array.Recorder{Price: 2400, IdlePower: math.NaN(), Licences: &array.Licences{Each: 45}}
		o.Choice.Recorder = &recorder
	}
	r := newReport(c)
	chartstest.CheckPage(t, func() page.Contents { return r.contents() },
		"(and 900 % room to grow: ", "Has no room to grow as asked for.", "Reaches back", "Purchase is drives, hot spares, licences of the cameras and recorder.")
}
