package site

import (
	"fmt"
	"strings"

	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// Takes returns what may stand under a key, in the words of the reference: "bit rate, 1
// kbit/s to 10 Gbit/s".
func Takes(k Key) string {
	or := ""
	if k.None {
		or = `, or "none"`
	}
	_, quantity, _ := strings.Cut(k.Quantity.Name, " ")
	if k.Quantity.Name == toml.Percent.Name {
		quantity = k.Quantity.Name
	}
	switch {
	case k.Kind == toml.Tables && k.Other != "":
		return fmt.Sprintf("Up to %s, or %s", unit.Digits(float64(k.Most), 15), k.Other)
	case k.Kind == toml.Tables:
		return fmt.Sprintf("Up to %s", unit.Digits(float64(k.Most), 15))
	case k.Kind == toml.Measured && k.Quantity.Name == toml.Odds.Name:
		return fmt.Sprintf("%s such as %q, %s, or in per cent%s", quantity, k.Quantity.Example, k.Limits(), or)
	case k.Kind == toml.Measured && k.Quantity.Bare:
		return fmt.Sprintf("%s, %s, or in per cent%s", quantity, k.Limits(), or)
	case k.Kind == toml.Measured:
		return fmt.Sprintf("%s, %s%s", quantity, k.Limits(), or)
	case k.Kind == toml.List:
		return strings.TrimPrefix(k.Expected(), "a ") + ", each " + k.Limits()
	case k.Kind == toml.Time:
		return fmt.Sprintf("time or law, %s%s", k.Limits(), or)
	case k.Kind == toml.Text && k.Right == "":
		return "text"
	case k.Kind == toml.SubTable && len(k.Forms) > 0:
		return "table in one of these forms"
	case k.Kind == toml.SubTable && k.Right == "":
		return "table"
	}
	return strings.TrimPrefix(k.Expected(), "a ")
}
