package unit

import "strings"

var workloads = kind{
	units:   perYear(sizeUnits),
	fold:    foldWorkload,
	right:   "bytes a year: GB/y, TB/y or PB/y (powers of 1000), or GiB/y, TiB/y or PiB/y (powers of 1024)",
	example: "550 TB/y",
	near:    nearWorkload,
}

// Workload reads how much is read and written in a year: "550 TB/y". The result is in
// bytes a year, 0 or more.
func Workload(text string) (float64, error) { return workloads.parse(text) }

func perYear(of map[string]float64) map[string]float64 {
	per := make(map[string]float64, len(of))
	for name, factor := range of {
		per[name+"/y"] = factor
	}
	return per
}

// foldWorkload forgives how the year is written, and the case of the prefix.
func foldWorkload(written string) (string, bool) {
	size, year, ok := strings.Cut(tight(written), "/")
	if !ok {
		return "", false
	}
	switch strings.ToLower(year) {
	case "y", "a", "yr", "year":
	default:
		return "", false
	}
	if _, ok := sizeUnits[size]; ok {
		return size + "/y", true
	}
	folded, ok := foldSize(size)
	return folded + "/y", ok
}

// nearWorkload takes a size without its year for one of a year.
func nearWorkload(value float64, written string) string {
	size, _, _ := strings.Cut(tight(written), "/")
	if size = nearSize(size); size != "" {
		return suggest(value, size+"/y")
	}
	return ""
}
