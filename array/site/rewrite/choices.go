// Package rewrite writes choices as a site file has them, and a site file with other
// choices in it, all else as it was.
package rewrite

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"arrayodds/array"
)

// Choices writes choices as [[choices]] of a site file. Their care and
// recorders are the site's, and are not written.
func Choices(choices []array.Choice) string {
	var b strings.Builder
	for i, c := range choices {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "[[choices]]\nlabel = %s\ndrive = %s\nlayout = %s\ndrives = %d\n", quoted(c.Label), quoted(c.Drive.Label), quoted(c.Layout.String()), c.Drives)
		if c.Groups != 1 {
			fmt.Fprintf(&b, "groups = %d\n", c.Groups)
		}
		if c.HotSpares > 0 {
			fmt.Fprintf(&b, "hot_spares = %d\n", c.HotSpares)
		}
	}
	return b.String()
}

// camerasTOML writes camera groups as [[cameras]]. Estimated bit rates are
// written as what they are estimated from.
func camerasTOML(cameras []array.Cameras) string {
	var b strings.Builder
	for _, c := range cameras {
		fmt.Fprintf(&b, "\n[[cameras]]\nlabel = %s\ncount = %d\n", quoted(c.Label), c.Count)
		if c.Estimated() {
			fmt.Fprintf(&b, "resolution = \"%s MP\"\nframes_per_second = %s\ncodec = %s\n", decimalText(c.Picture.Pixels/1e6), decimalText(c.Picture.FramesPerSecond), quoted(c.Picture.Codec.String()))
		} else {
			fmt.Fprintf(&b, "bitrate = \"%s Mbit/s\"\n", decimalText(c.BitRate/1e6))
		}
		fmt.Fprintf(&b, "hours_per_day = %s\nactivity = %s\nretention = \"%s d\"\n", decimalText(c.HoursPerDay), decimalText(c.Activity), decimalText(c.Retention/24))
	}
	return b.String()
}

func decimalText(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// quoted returns a text as TOML writes it. Labels hold no control characters, but may
// hold separators of lines, which look like ends of lines.
func quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\u2028", `\u2028`, "\u2029", `\u2029`).Replace(s) + `"`
}

// WithChoices returns the text of a site file, which was read without error, with other
// choices in place of its own, where the first of them stood; else at the end.
// All other lines, comments too, stay as they are, save that cameras which a
// schedule gives are written out, so that the text stands by itself: these are the
// site's cameras. What is new ends its lines as most of the others do.
func WithChoices(text []byte, cameras []array.Cameras, choices []array.Choice) []byte {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	end := lineEnd(text)
	own := func(fresh string) string { return strings.ReplaceAll(fresh, "\n", end) }
	var out bytes.Buffer
	placed, scheduled := false, false
	all := stretches(text)
	for i, s := range all {
		switch s.of {
		case otherLines:
			out.Write(text[s.from:s.to])
		case scheduleLine:
			scheduled = true
			out.WriteString("# Written out at the end, from the schedule: ")
			out.Write(text[s.from:s.to])
		case choiceKey, choiceTable:
			if s.of == choiceTable && !placed {
				out.WriteString(own(Choices(choices)))
				placed = true
			}
			if i+1 == len(all) || all[i+1].of == otherLines || all[i+1].of == scheduleLine {
				out.Write(text[comments(text, s):s.to]) // they belong to what follows
			}
		}
	}
	if b := out.Bytes(); len(b) > 0 && b[len(b)-1] != '\n' {
		out.WriteString(end)
	}
	if scheduled {
		out.WriteString(own(camerasTOML(cameras)))
	}
	if !placed {
		out.WriteString(own("\n" + Choices(choices)))
	}
	return out.Bytes()
}

// lineEnd returns how most lines of a text end.
func lineEnd(text []byte) string {
	if 2*bytes.Count(text, []byte("\r\n")) > bytes.Count(text, []byte("\n")) {
		return "\r\n"
	}
	return "\n"
}

// stretch is the lines from a key or header to the next.
type stretch struct {
	from, to int // offsets
	of       part
}

// part is what the lines are of.
type part int

const (
	otherLines part = iota
	scheduleLine
	choiceKey   // choices = [...], before any header
	choiceTable // [[choices]] and what is under it
)

// stretches cuts a text that was read without error before each key and header.
func stretches(text []byte) []stretch {
	all := []stretch{{of: otherLines}}
	var p unstable.Parser
	p.Reset(text)
	under := ""
	for p.NextExpression() {
		e := p.Expression()
		it := e.Key()
		it.Next()
		key, at := string(it.Node().Data), int(it.Node().Raw.Offset)
		of := otherLines
		switch {
		case e.Kind != unstable.KeyValue:
			if under = key; key == "choices" {
				of = choiceTable
			}
		case under == "choices":
			of = choiceTable
		case under == "" && key == "choices":
			of = choiceKey
		case under == "" && key == "cameras" && e.Value().Kind == unstable.String:
			of = scheduleLine
		}
		start := bytes.LastIndexByte(text[:at], '\n') + 1
		all[len(all)-1].to = start
		all = append(all, stretch{from: start, of: of})
	}
	all[len(all)-1].to = len(text)
	return all
}

// comments returns where the blank lines and comments at the end of a stretch begin.
func comments(text []byte, s stretch) int {
	first := s.from + bytes.IndexByte(text[s.from:s.to], '\n') + 1
	if first == s.from { // its one line has no end
		return s.to
	}
	at := s.to
	for at > first {
		start := bytes.LastIndexByte(text[:at-1], '\n') + 1
		if line := bytes.TrimSpace(text[start:at]); len(line) > 0 && line[0] != '#' {
			break
		}
		at = start
	}
	return at
}
