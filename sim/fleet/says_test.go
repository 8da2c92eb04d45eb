package fleet

import (
	"slices"
	"strings"
	"testing"

	"arrayodds/array"
)

// Of a drive that stood alone nothing is said that holds for a lost group alone: the drives
// beside it go on. Where nothing but lost arrays is left, nothing is said of others.
func TestWhatIsSaidOfLostArrays(t *testing.T) {
	t.Parallel()
	alone, group, whole := chained("alone", array.JBOD, 4, 1, 0.02, 48), chained("group", array.RAID6, 8, 3, 0.02, 48), chained("whole", array.RAID6, 8, 0, 0.02, 48)
	const off, on, others, month = "switched off", "record on", "In the others", "Within 30 days"
	for _, c := range []struct {
		name   string
		arrays []Array
		said   []string
	}{
		{"a drive alone", []Array{alone}, []string{on}},
		{"a group", []Array{group}, []string{off}},
		{"both", []Array{group, alone}, []string{off, on}},
		{"both and a whole one", []Array{group, alone, whole}, []string{off, on, others, month}},
	} {
		r := ask(t, 2, c.arrays...)
		text := strings.Join(slices.Concat([]string{r.Headline()}, r.First(), r.Points()), "\n")
		for _, s := range []string{off, on, others, month} {
			if got, want := strings.Contains(text, s), slices.Contains(c.said, s); got != want {
				t.Errorf("%s: %q is said: %v, want %v, in\n%s", c.name, s, got, want, text)
			}
		}
		for _, line := range r.First() {
			if strings.Contains(line, off) && strings.Contains(line, "alone") {
				t.Errorf("%s: %q", c.name, line)
			}
		}
	}
}
