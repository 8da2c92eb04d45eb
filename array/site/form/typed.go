package form

import (
	"strconv"
	"strings"
	"time"

	"arrayodds/array/pattern"

	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/toml/edit"
)

// written returns what is typed for a key as TOML. What can be no value of it is quoted,
// so that the reader says what is wrong with it. k is nil for a key that is not known.
func written(k *site.Key, typed string) string {
	trimmed := strings.TrimSpace(typed)
	kind := toml.Kind("")
	if k != nil {
		kind = k.Kind
	}
	switch kind {
	case toml.Text, toml.Tables:
		return toml.Quote(typed)
	case toml.Word:
		return asText(trimmed)
	case toml.YesNo:
		if word := strings.ToLower(trimmed); word == "true" || word == "false" {
			return word
		}
	case toml.Date:
		if _, err := time.Parse(time.DateOnly, trimmed); err == nil {
			return trimmed
		}
	case toml.Whole, toml.Number:
		if n := number(trimmed); n != "" {
			return n
		}
	case toml.Measured:
		if n := number(trimmed); n != "" && k.Quantity.Bare {
			return n
		}
	case toml.List, toml.Labels:
		if v := asValue(trimmed, edit.List); v != "" {
			return v
		}
		return listed(trimmed)
	case toml.Settings, toml.SubTable, toml.Time:
	default:
		for _, as := range []edit.Kind{edit.Bare, edit.List} {
			if v := asValue(trimmed, as); v != "" {
				return v
			}
		}
	}
	if v := asValue(trimmed, edit.Table); v != "" {
		return v
	}
	return asText(trimmed)
}

// asText returns a text in quotes; one that is typed with its quotes, as it is.
func asText(typed string) string {
	if v := asValue(typed, edit.String); v != "" {
		return v
	}
	return toml.Quote(typed)
}

// asValue returns what is typed if that is one value of a kind in TOML; else "".
func asValue(typed string, kind edit.Kind) string {
	begins := map[edit.Kind]string{edit.Table: "{", edit.List: "[", edit.String: `"'`, edit.Bare: "0123456789+-tfin"}[kind]
	if typed == "" || !strings.Contains(begins, typed[:1]) {
		return ""
	}
	text := "x = " + typed
	d, err := toml.Parse(strings.NewReader(text), "")
	if err != nil || len(d.Errs) > 0 || len(d.Root.Keys) != 1 {
		return ""
	}
	t := edit.Parse([]byte(text))
	n := t.Root.Under["x"]
	if n == nil || n.Kind != kind {
		return ""
	}
	return t.Source(n)
}

var digits = pattern.Of(`^[-+]?[0-9.][0-9. \x{00a0}\x{202f}]*(?:[eE][-+]?[0-9]+)?$`)

// number returns a number as TOML has it, groups of digits put together; "" of what is
// none.
func number(typed string) string {
	if v := asValue(typed, edit.Bare); v != "" {
		if _, err := strconv.ParseFloat(strings.ReplaceAll(v, "_", ""), 64); err == nil {
			return v
		}
		if _, err := strconv.ParseInt(v, 0, 64); err == nil {
			return v
		}
		return ""
	}
	if !digits().MatchString(typed) {
		return ""
	}
	joined := strings.NewReplacer(" ", "", "\u00a0", "", "\u202f", "").Replace(typed)
	if asValue(joined, edit.Bare) != "" {
		return joined
	}
	v, err := strconv.ParseFloat(joined, 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// listed returns what is typed with commas between as a list of texts.
func listed(typed string) string {
	if strings.ContainsAny(typed, "[]{}\"'") {
		return toml.Quote(typed)
	}
	var all []string
	for _, part := range strings.Split(typed, ",") {
		if part = strings.TrimSpace(part); part != "" {
			all = append(all, toml.Quote(part))
		}
	}
	return "[" + strings.Join(all, ", ") + "]"
}
