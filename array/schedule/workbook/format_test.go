package workbook

import "testing"

// TestPercent: which numbers a format shows as per cent. The rules are those of ECMA-376
// part 1, 18.8.31; that a section without a condition behind others takes the rest is
// from memory.
func TestPercent(t *testing.T) {
	for _, c := range []struct {
		format string
		x      float64
		want   bool
	}{
		{"", 0.5, false}, {"0%", 0.5, true}, {"0%", -0.5, true}, {"0.0 %;-0.0 %", 0, true}, {"% 0", 1, true},
		{"0%;0", -0.5, false}, {"0;0%", -0.5, true}, {"0;0%", 0, false},
		{"0%;-0%;0", 0, false}, {"0%;-0%;0", -1, true}, {"0;-0;0%", 0, true}, {"0;-0;0%", 1, false}, {"0;-0;0;@%", 1, false}, {"0%;-0%;\"-\";@", 0, false},
		{"[<1]0%;0.0", 0.99, true}, {"[<1]0%;0.0", 1, false}, {"[>=1]0;0.0%", 0.5, true}, {"[=0]\"none\";0%", 0, false}, {"[=0]\"none\";0%", 0.25, true},
		{"[<0.1]0.00%;[<=1]0%;0", 0.05, true}, {"[<0.1]0.00%;[<=1]0%;0", 1, true}, {"[<0.1]0.00%;[<=1]0%;0", 1.1, false},
		{"[>-.5]0%;0", -1, false}, {"[<>0]0%;0", 0, false}, {"[Red][<1]0%;0", 0.5, true}, {"[$-409]0%", 1, true}, {"[$%-409]0", 1, false},
		{`0"%"`, 50, false}, {`0\%`, 50, false}, {"0_%", 50, false}, {"0*%", 50, false}, {`"a;b"0%`, 1, true}, {`0"`, 1, false}, {"0[", 1, false}, {`0\`, 1, false}, {"0[%", 1, false},
	} {
		if got := percent(c.format, c.x); got != c.want {
			t.Errorf("%s of %v: %v", c.format, c.x, got)
		}
	}
}
