package unit

import "strings"

const percentExample = "1.5 %"

// Percent reads a share that must be written in per cent: "1.5 %" is 0.015.
// Above 100 % is allowed. It is for what is always spoken of in per cent, such
// as an annualised failure rate, where "0.5" could be half a per cent or a half.
func Percent(text string) (float64, error) {
	value, written, err := split(text, percentExample)
	if err != nil {
		return 0, err
	}
	switch strings.ToLower(written) {
	case "%", "percent", "per cent":
		return value / 100, nil
	case "":
		return 0, &Error{
			Found: because(text, "which may be a share or per cent"),
			Right: "in per cent: " + quoted(shortest(value)+" %") + " or " + quoted(shortest(value*100)+" %"),
		}
	}
	return 0, &Error{Found: because(text, "with the unit "+Quote(written)), Right: "per cent, such as " + quoted(percentExample)}
}

// Share reads a share or a chance: "1.5 %" and "0.015" are the same. The result
// is 0 or more; whether above 1 makes sense is the caller's to say.
func Share(text string) (float64, error) {
	value, written, err := split(text, percentExample)
	if err == nil && written == "" {
		return value, nil
	}
	if err != nil {
		return 0, err
	}
	return Percent(text)
}

func quoted(s string) string { return `"` + s + `"` }
