package array

import (
	"fmt"
	"strconv"
	"strings"

	"arrayodds/array/pattern"
)

var erasureCode = pattern.Of(`^(\d{1,4}) ?\+ ?(\d{1,4})$`)

// ParseLayout reads the name of a layout without regard to case, blanks,
// hyphens and underscores: "RAID-6", "raid6", "Triple parity", "6+3". The error
// says that no layout is called so.
func ParseLayout(name string) (Layout, error) {
	plain := plainName(name)
	for _, l := range Levels() {
		if plainName(l.String()) == plain {
			return Layout{Level: l}, nil
		}
	}
	if m := erasureCode().FindStringSubmatch(strings.TrimSpace(name)); m != nil {
		k, _ := strconv.Atoi(m[1])
		p, _ := strconv.Atoi(m[2])
		if k > 0 && p > 0 {
			return Layout{Level: Erasure, Data: k, Parity: p}, nil
		}
	}
	return Layout{}, fmt.Errorf("no layout is called %q", name)
}

func plainName(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '\t', '\u00a0', '-', '_':
			return -1
		}
		return r
	}, strings.ToLower(s))
}
