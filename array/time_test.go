package array

import (
	"reflect"
	"testing"

	"arrayodds/array/unit"
)

// Arithmetic: every length of a law is multiplied, and nothing else.
func TestTimes(t *testing.T) {
	t.Parallel()
	week := unit.Week{{From: 8, To: 17}}
	for _, c := range []struct{ in, want Time }{
		{Fixed{3}, Fixed{12}},
		{Exponential{3}, Exponential{12}},
		{WeibullTime{Min: 1, Scale: 2, Shape: 3}, WeibullTime{Min: 4, Scale: 8, Shape: 3}},
		{Lognormal{Median: 2, P90: 5}, Lognormal{Median: 8, P90: 20}},
		{OpenHours{Within: 2, Week: week}, OpenHours{Within: 8, Week: week}},
	} {
		if got := c.in.Times(4); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%+v is %+v four times as long, want %+v", c.in, got, c.want)
		}
	}
}
