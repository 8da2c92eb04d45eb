package session

import (
	"context"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/figure"
)

// readAnswer is the answer of read.
type readAnswer struct {
	Errors []userError `json:"errors"`
	Sizes  []size      `json:"sizes"`  // of each choice, by place
	Demand []string    `json:"demand"` // what the cameras need, in sentences
}

// size is what a choice is before chance comes in.
type size struct {
	Place  int    `json:"place"`
	Label  string `json:"label"`
	Layout string `json:"layout"`
	Drives string `json:"drives"` // "12 drives in 2 groups, 1 hot spare"
	Usable string `json:"usable"` // "72 TB"
	Held   string `json:"held"`   // "31.2 d"; empty without cameras
	Meets  bool   `json:"meets"`
	Why    string `json:"why"`  // it does not meet the demand, or may not; empty: it does
	Cost   string `json:"cost"` // to buy; empty: not known
}

// read reads the site file as the fields of a form, and sizes its choices; nothing is
// simulated.
func (s *Session) read(_ context.Context, r request) (response, error) {
	var args siteArgs
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	out, err := s.formOf(args.Text, r.files)
	return response{answer: out}, err
}

func readAnswerOf(f *site.File) (readAnswer, error) {
	out := readAnswer{Errors: []userError{}, Sizes: []size{}, Demand: orEmpty(demandOf(f))}
	for i, c := range f.Site.Choices {
		said, err := sizeOf(f.Site, c, i)
		if err != nil {
			return readAnswer{}, err
		}
		out.Sizes = append(out.Sizes, said)
	}
	return out, nil
}

// demandOf says what the cameras need.
func demandOf(f *site.File) []string {
	if len(f.Site.Cameras) == 0 {
		return nil
	}
	d := f.Site.Demand()
	says := []string{figure.Count(f.Site.CameraCount(), "camera", "cameras") + " need " + figure.Exact(d.Needed/array.TB) + " TB" + f.Site.GrowthWords(figure.Exact) +
		", written at " + figure.Exact(d.WriteRate/1e6) + " MB/s, for up to " + figure.Plural(figure.Plain(d.Longest/24), "day", "days") + "."}
	if f.Site.Estimated() {
		need := func(s array.Site) string { return figure.Exact(s.Demand().Needed / array.TB) }
		says = append(says, "Bit rates are estimated: the cameras may need "+need(f.Site.Lowest())+" to "+need(f.Site.Highest())+" TB.")
	}
	return says
}

// shortOf says why a choice does not meet the demand, or may not.
func shortOf(s array.Site, z array.Sizing) string {
	switch longest := s.Demand().Longest; {
	case z.Meets && !z.AtHigh.Meets && z.AtHigh.Needed > 0:
		return "At the high end of the estimated bit rates it does not hold the footage."
	case z.Meets:
		return ""
	case z.Retention >= longest:
		return "Has no room to grow as asked for."
	default:
		return "Reaches back " + figure.Days(z.Retention) + " of the " + figure.Days(longest) + " asked for."
	}
}
