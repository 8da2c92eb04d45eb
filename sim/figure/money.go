package figure

import "math"

// Money writes a sum in a currency, "4 720 EUR"; without one, "4 720".
func Money(x float64, currency string) string {
	if currency == "" || math.IsNaN(x) {
		return Whole(x)
	}
	return Whole(x) + "\u00a0" + currency
}

// CurrencyName returns what sums are in as a heading or a sentence names it.
func CurrencyName(currency string) string {
	if currency == "" {
		return "the site's currency"
	}
	return currency
}
