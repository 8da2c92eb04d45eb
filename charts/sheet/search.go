package sheet

import (
	"io"

	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/choose"
	"arrayodds/sim/figure"
)

// WriteSearch writes the page of a search as [Write] does that of a comparison: its
// finalists are compared.
func WriteSearch(w io.Writer, f choose.Found) error {
	return page.WriteWith(w, searched(f).contents(), "")
}

// searched returns the finalists with what the search says of them.
func searched(f choose.Found) sheet {
	said := answer.Of(f.Finalists)
	said.Question += " They are the finalists of " + figure.Count(len(f.Designs), "design", "designs") + " that were searched."
	said.Advice = f.Says
	if said.Recommended != f.Recommended {
		said.Recommended = f.Recommended
		if f.Recommended >= 0 {
			said.Compared = []int{f.Recommended}
		}
	}
	return sheet{f.Finalists, said}
}
