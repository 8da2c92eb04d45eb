package figure_test

import (
	"math"
	"testing"

	"arrayodds/sim/figure"
)

func TestMoney(t *testing.T) {
	for _, c := range []struct {
		sum      float64
		currency string
		want     string
	}{
		{4720.4, "EUR", "4 720\u00a0EUR"}, {4720, "", "4 720"}, {0, "kr.", "0\u00a0kr."}, {math.NaN(), "EUR", "not known"},
	} {
		if got := plain(figure.Money(c.sum, c.currency)); got != c.want {
			t.Errorf("%v in %q is %q, want %q", c.sum, c.currency, got, c.want)
		}
	}
	if figure.CurrencyName("EUR") != "EUR" || figure.CurrencyName("") != "the site's currency" {
		t.Error("a currency goes by another name")
	}
}
