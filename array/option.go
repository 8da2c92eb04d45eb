package array

// An Option is what money can buy beside drives: other values of some inputs of the site.
type Option struct {
	Label    string
	Price    float64 // once, in the site's currency, 0 or more
	PerYear  float64 // each year, 0 or more
	Set      []OptionSetting
	Excludes []string // labels of options that cannot be taken beside it
}

// An OptionSetting is an input with the value that an option gives it.
type OptionSetting struct {
	Path  string // as one can type it: "care.response"
	Value string // as one can type it
	Line  int    // of the site file
}

// OverLife returns what the option costs over so many years.
func (o Option) OverLife(years float64) float64 { return o.Price + o.PerYear*years }

// Clashes reports whether the option cannot be taken beside another.
func (o Option) Clashes(other Option) bool {
	for _, pair := range [][2]Option{{o, other}, {other, o}} {
		for _, label := range pair[0].Excludes {
			if label == pair[1].Label {
				return true
			}
		}
	}
	return false
}
