package array

import (
	"math"
	"testing"
)

// Between two points of a table a run time follows a power of the load: halfway on both
// logarithmic scales lie the geometric means (by hand: √(100·400) = 200, √(60·15) = 30).
func TestRunTime(t *testing.T) {
	t.Parallel()
	u := &UPS{Load: []float64{100, 400}, Lasts: []float64{60, 15}}
	for _, c := range []struct{ watts, want float64 }{{50, 60}, {100, 60}, {200, 30}, {400, 15}} {
		if got := u.RunTime(c.watts); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%g W: %g, want %g", c.watts, got, c.want)
		}
	}
	if got := u.RunTime(401); !math.IsNaN(got) {
		t.Errorf("above the table: %g", got)
	}
	if got := (*UPS)(nil).RunTime(1); !math.IsNaN(got) {
		t.Errorf("without a UPS: %g", got)
	}
}

// The bays of two rows of four, drawn by hand for each way of numbering.
func TestPlaces(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		n    Numbering
		want [2][4]int // which bay stands there
	}{
		{Numbering{Columns: 4}, [2][4]int{{0, 1, 2, 3}, {4, 5, 6, 7}}},
		{Numbering{Columns: 4, Down: true}, [2][4]int{{0, 2, 4, 6}, {1, 3, 5, 7}}},
		{Numbering{Columns: 4, Bottom: true}, [2][4]int{{4, 5, 6, 7}, {0, 1, 2, 3}}},
		{Numbering{Columns: 4, Bottom: true, Right: true, Down: true}, [2][4]int{{7, 5, 3, 1}, {6, 4, 2, 0}}},
	} {
		for at := range 8 {
			if row, column := c.n.Place(at, 8); c.want[row][column] != at {
				t.Errorf("%+v: bay %d is drawn at row %d, column %d", c.n, at, row, column)
			}
		}
	}
}
