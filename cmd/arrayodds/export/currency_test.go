package export

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/study"
)

// priced is the sample in which everything has a price: the first choice costs
// 4 720 to buy and 0.6 × 290 for drives replaced, and draws 56 W for five years at
// 0.25 a kWh, which is 613.20.
func priced() study.Comparison {
	r := sample()
	r.Site.Currency, r.Site.EnergyPrice = "EUR", 0.25
	r.Outcomes[0].Sizing.Purchase, r.Outcomes[0].Choice.Drive.Price = 4720, 290
	return r
}

// TestJSONCostOfLife: sums with their currency and the whole cost by hand, and null
// where they are not known.
func TestJSONCostOfLife(t *testing.T) {
	var all map[string]any
	if err := json.Unmarshal([]byte(jsonOf(t, priced())), &all); err != nil {
		t.Fatal(err)
	}
	if got := at(t, all, "currency"); got != "EUR" {
		t.Errorf("the currency is %v", got)
	}
	for key, want := range map[string]float64{"value": 5507.2, "low": 5498.5, "high": 5515.9} {
		if got := at(t, all, "choices", 0, "cost_of_life", key).(float64); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s is %v, want %v", key, got, want)
		}
	}
	if got := at(t, all, "choices", 1, "cost_of_life"); got != nil { // its power is not known
		t.Errorf("the second costs %v", got)
	}
	for key, want := range map[string]any{"layout": "JBOD", "drive": "-4 TB", "drives": 1.0, "groups": 1.0, "hot_spares": 1.0} {
		if got := at(t, all, "choices", 1, key); got != want {
			t.Errorf("%s is %v, want %v", key, got, want)
		}
	}
	if text := jsonOf(t, sample()); !strings.Contains(text, `"currency": null,`) {
		t.Errorf("without a currency:\n%s", text)
	}
}

// TestHeadingsNameTheCurrency: every heading of a sum has the currency, or else says
// that it is the site's.
func TestHeadingsNameTheCurrency(t *testing.T) {
	for currency, want := range map[string]string{"EUR": "(EUR)", "": "(the site's currency)"} {
		sums := 0
		for _, h := range choicesSheetIn(currency).heads {
			if sum := strings.Contains(h.name, "cost"); sum {
				sums++
				if !strings.Contains(h.title, want) {
					t.Errorf("%q: %s is headed %q", currency, h.name, h.title)
				}
			} else if strings.Contains(h.title, want) {
				t.Errorf("%s is headed %q", h.name, h.title)
			}
		}
		if sums < 9 {
			t.Errorf("%d columns of sums", sums)
		}
	}
	var b bytes.Buffer
	if err := compareCSV(&b, priced()); err != nil {
		t.Fatal(err)
	}
	if text := b.String(); !strings.Contains(text, ",currency,purchase_cost,") || !strings.Contains(text, ",EUR,4720,") || !strings.Contains(text, ",5507.2,5498.5,5515.9,") {
		t.Errorf("%s", text)
	}
}

func choicesSheetIn(currency string) sheet {
	return outcomeColumns(array.Site{Currency: currency, Cameras: make([]array.Cameras, 1)}).sheet("", nil)
}
