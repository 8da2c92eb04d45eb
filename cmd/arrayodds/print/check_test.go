package print

import (
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site"
)

func TestCheck(t *testing.T) {
	s, outcomes := sample()
	var sizes []array.Sizing
	for _, o := range outcomes {
		sizes = append(sizes, o.Sizing)
	}
	f := &site.File{Site: s, Assumptions: []site.Assumption{
		{Path: "service_life", Text: "5 y"},
		{Path: "choices.one parity drive in each of a dozen groups.care.response", Text: "24 h", Default: true},
	}}
	var b strings.Builder
	if err := Check(&b, f, sizes); err != nil {
		t.Fatal(err)
	}
	golden(t, "check.txt", b.String())
}

func TestCheckOnEstimates(t *testing.T) {
	s := estimatedSite()
	s.Choices[0].Drives = 80 // 960 TB: 778 are needed at least, 1 555 likely, 3 111 at most
	var sizes []array.Sizing
	for _, c := range s.Choices {
		z, err := s.Size(c)
		if err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, z)
	}
	var b strings.Builder
	if err := Check(&b, &site.File{Site: s}, sizes); err != nil {
		t.Fatal(err)
	}
	golden(t, "check-estimated.txt", b.String())
}
