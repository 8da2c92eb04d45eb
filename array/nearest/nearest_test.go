package nearest

import (
	"strings"
	"testing"
)

// TestName: slips of the pen are found, and what is far off is left alone.
func TestName(t *testing.T) {
	t.Parallel()
	names := []string{"afr", "mtbf", "RAID 6", "RAID 60", "triple parity", "H.264", "likely", "response", "restock", "compare"}
	for written, want := range map[string]string{
		"arf":                      "afr", // two neighbours swapped
		"afr":                      "afr",
		"AFR":                      "afr",
		"af":                       "afr",
		"mtfb":                     "mtbf",
		"raid-6":                   "RAID 6",
		"RIAD 6":                   "RAID 6",
		"RAID_60":                  "RAID 60",
		"tripel parity":            "triple parity",
		"H.263":                    "H.264",
		"likly":                    "likely",
		"respose":                  "response",
		"compair":                  "compare",
		"x":                        "",
		"capacity":                 "",
		"rfa":                      "", // turned about, not swapped
		"":                         "",
		strings.Repeat("afr", 200): "",
	} {
		if got := Name(written, names); got != want {
			t.Errorf("%q is near %q, want %q", written, got, want)
		}
	}
}
