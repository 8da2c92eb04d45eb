package axis

import (
	"cmp"
	"slices"
	"strings"

	"arrayodds/array/site"
)

// wholePaths names the keys that a path with keys left out can mean: of afr that
// is drives.*.life.afr, of "drives.8 TB.afr" it is "drives.8 TB.life.afr". It
// returns "" where there is no such key, and where nothing is left out.
func (s *Source) wholePaths(a *Axis) string {
	var typed []string
	steps := a.targets[0].steps
	for _, step := range steps {
		if step.Key != "" {
			typed = append(typed, step.Key)
		}
	}
	if site.Lookup(strings.Join(typed, ".")) != nil {
		return ""
	}
	var found []string
	for _, known := range site.Keys() {
		keys := strings.Split(known.Path, ".")
		if known.Name() != typed[len(typed)-1] || !holds(keys, typed) {
			continue
		}
		if slices.Contains(lists, keys[0]) {
			first := keys[0] + ".*"
			if len(steps) > 1 && steps[1].Key == "" && !strings.HasPrefix(a.Path, first+".") {
				first = s.doc.PathOf(steps[:2])
			}
			keys[0] = first
		}
		found = append(found, strings.Join(keys, "."))
	}
	if len(found) == 0 {
		return ""
	}
	const most = 3
	slices.SortFunc(found, shortestFirst)
	return "the whole path of the key: " + strings.Join(found[:min(len(found), most)], " or ")
}

func shortestFirst(a, b string) int {
	return cmp.Or(cmp.Compare(strings.Count(a, "."), strings.Count(b, ".")), cmp.Compare(a, b))
}

// holds reports whether all has some, in its order.
func holds(all, some []string) bool {
	for _, key := range all {
		if len(some) > 0 && key == some[0] {
			some = some[1:]
		}
	}
	return len(some) == 0
}
