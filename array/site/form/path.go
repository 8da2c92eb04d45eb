package form

import (
	"fmt"
	"strconv"
	"strings"

	"arrayodds/array/toml/edit"
)

// maxSteps bounds a path, as the reader does the depth of a value.
const maxSteps = 64

// pathOf returns a path one step further: a number for an item, a key as it is or, where
// it could be taken for something else, in quotes.
func pathOf(under string, s edit.Step) string {
	part := ""
	switch {
	case s.Key == nil:
		part = strconv.Itoa(s.Item)
	case plain(*s.Key):
		part = *s.Key
	default:
		part = strconv.Quote(*s.Key)
	}
	if under == "" {
		return part
	}
	return under + "." + part
}

// plain reports whether a key reads as one without quotes.
func plain(key string) bool {
	letters := false
	for _, r := range key {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r == '_', r == '-':
			letters = true
		case r >= '0' && r <= '9':
		default:
			return false
		}
	}
	return letters
}

// steps returns the steps of a path.
func steps(path string) (all []edit.Step, err error) {
	for rest := path; rest != ""; {
		part := ""
		if strings.HasPrefix(rest, `"`) {
			prefix, err := strconv.QuotedPrefix(rest)
			if err != nil {
				return nil, fmt.Errorf("no path: %.80q", path)
			}
			key, _ := strconv.Unquote(prefix)
			all = append(all, edit.Key(key))
			part, rest = prefix, rest[len(prefix):]
		} else {
			end := strings.IndexByte(rest, '.')
			if end < 0 {
				end = len(rest)
			}
			part, rest = rest[:end], rest[end:]
			if n, err := strconv.Atoi(part); err == nil && n >= 0 {
				all = append(all, edit.Item(n))
			} else {
				all = append(all, edit.Key(part))
			}
		}
		if part == "" || rest == "." || rest != "" && rest[0] != '.' || len(all) > maxSteps {
			return nil, fmt.Errorf("no path: %.80q", path)
		}
		rest = strings.TrimPrefix(rest, ".")
	}
	return all, nil
}

// keyPath returns the path of keys alone, as the table of keys has it: "drives.life".
func keyPath(steps []edit.Step) string {
	var keys []string
	for _, s := range steps {
		if s.Key != nil {
			keys = append(keys, *s.Key)
		}
	}
	return strings.Join(keys, ".")
}
