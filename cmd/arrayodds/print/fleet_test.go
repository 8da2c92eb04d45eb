package print

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/fleet"
)

// What is not listed of the models is counted one by one, and where it stands is said.
func TestModelsThatAreNotListed(t *testing.T) {
	t.Parallel()
	var r fleet.Result
	for i := range mostModels + 8 {
		r.Models = append(r.Models, fleet.Model{Label: fmt.Sprintf("model %d", i), Arrays: 1, Year: fleet.Year{Drives: 8, Failures: estimate.FromError(1, 0.1, 100), Most: estimate.Exact(2)}})
	}
	if text, want := models(&r), "And 8 more models: the page has more of them, --xlsx and --json have all."; !strings.Contains(text, want) {
		t.Errorf("not said: %s, in\n%s", want, text)
	}
	r.Models = append(r.Models, fleet.Model{Others: 30})
	if text, want := models(&r), "And 38 more models: the page has more of them, --xlsx and --json have 20 by themselves."; !strings.Contains(text, want) {
		t.Errorf("not said: %s, in\n%s", want, text)
	}
}
