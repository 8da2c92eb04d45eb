package site

import (
	"maps"
	"strings"
	"testing"

	"arrayodds/array"
)

// TestCustomaryWidths: layouts are named as in a choice, what is said twice or of no
// layout is an error at its place, and the assumptions do not list what no result rests
// on.
func TestCustomaryWidths(t *testing.T) {
	t.Parallel()
	read := func(tables string) (*File, error) {
		return Read(strings.NewReader(small+"\n"+tables), "s.toml")
	}
	for text, want := range map[string]map[array.Level]int{
		"":                         nil,
		"[sizing]":                 nil,
		"[sizing.customary_width]": nil,
		"[sizing]\ncustomary_width = { \"RAID 5\" = 8, \"RAID 6\" = 12, \"triple parity\" = 16 }": nil,
		"[sizing]\ncustomary_width = { raid6 = 14 }":                                              {array.RAID6: 14},
		"[sizing.customary_width]\n\"Triple-Parity\" = 20\nRAID_5 = 3":                            {array.TripleParity: 20, array.RAID5: 3},
	} {
		f, err := read(text)
		if err != nil || !maps.Equal(f.Site.Widths, want) {
			t.Errorf("%s: %v %v", text, f, err)
			continue
		}
		for _, a := range f.Assumptions {
			if strings.HasPrefix(a.Path, "sizing") {
				t.Errorf("%s: %s is listed among the assumptions", text, a.Path)
			}
		}
	}
	for text, want := range map[string]string{
		"[sizing]\ncustomary_width = 12":                                         "s.toml:14: sizing.customary_width: found 12; right would be a table",
		"[sizing]\nwidth = 12":                                                   "s.toml:14: sizing.width: found an unknown key; right would be one of customary_width",
		"[sizing.customary_width]\nraid6 = 3":                                    "s.toml:14: sizing.customary_width.RAID 6: found 3; right would be a whole number, 4 to 1 000",
		"[sizing.customary_width]\n\"RAID 6\" = \"12\"":                          `s.toml:14: sizing.customary_width.RAID 6: found "12", a text`,
		"[sizing.customary_width]\nraid6 = 12\n\"RAID 6\" = 14":                  "s.toml:14: sizing.customary_width.raid6: found the width of RAID 6 again; right would be one width for each layout",
		"[sizing.customary_width]\njbod = 12":                                    "s.toml:14: sizing.customary_width.JBOD: found an unknown key; right would be one of RAID 0",
		"[sizing.customary_width]\n\"8+3\" = 12":                                 "s.toml:14: sizing.customary_width.8+3: found an unknown key",
		"[sizing.customary_width]\nRAID66 = 12":                                  `(did you mean "RAID 6"?)`,
		"[sizing.customary_width]\nraid6 = { low = 12, likely = 13, high = 14 }": "it says nothing of the site itself",
	} {
		_, err := read(text)
		if err == nil || !strings.Contains(err.Error(), want) || strings.Count(err.Error(), "\n") > 0 {
			t.Errorf("%s: %v\nwant %s", text, err, want)
		}
	}
}
