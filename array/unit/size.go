package unit

import "strings"

var sizeUnits = map[string]float64{
	"B":  1,
	"kB": 1e3, "MB": 1e6, "GB": 1e9, "TB": 1e12, "PB": 1e15,
	"KiB": 1 << 10, "MiB": 1 << 20, "GiB": 1 << 30, "TiB": 1 << 40, "PiB": 1 << 50,
}

const sizesRight = "B, kB, MB, GB, TB or PB (powers of 1000), or KiB, MiB, GiB, TiB or PiB (powers of 1024)"

var sizes = kind{
	units:   sizeUnits,
	fold:    foldSize,
	right:   sizesRight,
	example: "12 TB",
	near: func(value float64, written string) string {
		return suggest(value, nearSize(written))
	},
}

// Size reads a number of bytes: "12 TB", "10.9 TiB". The result is in bytes,
// 0 or more.
func Size(text string) (float64, error) { return sizes.parse(text) }

// foldSize forgives the case of the prefix, never of the B, and not of KB, which
// has two meanings.
func foldSize(written string) (string, bool) {
	prefix, ok := strings.CutSuffix(written, "B")
	if !ok {
		return "", false
	}
	switch strings.ToLower(prefix) {
	case "m", "g", "t", "p":
		return strings.ToUpper(prefix) + "B", true
	case "ki", "mi", "gi", "ti", "pi":
		return strings.ToUpper(prefix[:1]) + "iB", true
	}
	return "", false
}

// nearSize returns the unit of bytes whose letters are nearest to what was written:
// "Tb", "tb", "T" and "terabytes" are near to TB.
func nearSize(written string) string {
	s := strings.ToLower(written)
	for name, word := range map[string]string{
		"kB": "kilobyte", "MB": "megabyte", "GB": "gigabyte", "TB": "terabyte", "PB": "petabyte",
		"KiB": "kibibyte", "MiB": "mebibyte", "GiB": "gibibyte", "TiB": "tebibyte", "PiB": "pebibyte", "B": "byte",
	} {
		if strings.TrimSuffix(s, "s") == word {
			return name
		}
	}
	s = strings.TrimSuffix(strings.TrimSuffix(s, "its"), "it") // Tbit, Tbits
	s = strings.TrimSuffix(s, "b")
	switch s {
	case "k":
		return "kB"
	case "m", "g", "t", "p":
		return strings.ToUpper(s) + "B"
	case "ki", "mi", "gi", "ti", "pi":
		return strings.ToUpper(s[:1]) + "iB"
	}
	return ""
}

// suggest returns a value with the unit that was perhaps meant.
func suggest(value float64, name string) string {
	if name == "" {
		return ""
	}
	return shortest(value) + " " + name
}
