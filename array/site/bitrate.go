package site

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// bitRates bounds the rate of one camera, given or estimated.
var bitRates = toml.Between{Low: "1 kbit/s", High: "10 Gbit/s"}

// pictureKeys are what a bit rate can be estimated from.
var pictureKeys = []string{"resolution", "width", "height", "frames_per_second", "codec"}

// readBitRate reads the rate of a camera, or what it is estimated from.
func readBitRate(t *toml.Table, c *array.Cameras) {
	pictured := false
	for _, key := range pictureKeys {
		pictured = pictured || t.Given(key)
	}
	if pictured && !t.Given("bitrate") {
		t.Ask("bitrate", toml.Fallback{}, "")
		readPicture(t, c)
		return
	}
	// Told apart from the reading of the value, since much more would do.
	if !t.Given("bitrate") {
		t.Ask("bitrate", toml.Required, toml.BitRate.Right(bitRates)+", or resolution, frames_per_second and codec to estimate it from")
	} else {
		t.Quantity("bitrate", toml.BitRate, toml.Required, bitRates, &c.BitRate)
	}
	for _, key := range pictureKeys {
		if n := t.Ask(key, toml.Fallback{}, ""); n != nil {
			t.NoteValue(key, n.Shown()+": not used, since the bit rate is given")
		}
	}
}

// readPicture reads what the cameras send, and estimates the bit rate.
func readPicture(t *toml.Table, c *array.Cameras) {
	p := array.Picture{}
	pixels := readPixels(t, &p.Pixels)
	t.Number("frames_per_second", toml.Required, toml.Limits{Low: 0.01, High: 1000}, &p.FramesPerSecond)
	codec := readCodec(t, &p.Codec)
	if !pixels || !codec || p.FramesPerSecond == 0 {
		return
	}
	low, likely, high := p.BitRate()
	span := fmt.Sprintf("%s, %s to %s", unit.FormatBitRate(likely), unit.FormatBitRate(low), unit.FormatBitRate(high))
	if least, most := bitRates.In(toml.BitRate); low < least || high > most {
		t.Wrong("codec", "an estimated bit rate of "+span, bitRates.String(), "")
		return
	}
	c.Picture, c.BitRate = p, likely
	l, m, h := p.Codec.BitsPerPixel()
	t.Note(t.LastOwn(), toml.Join(t.Path, "bitrate"), fmt.Sprintf("an estimate: %s (%s, %s to %s bits per pixel of %s: common practice, no source)",
		span, unit.Digits(m, 3), unit.Digits(l, 3), unit.Digits(h, 3), p.Codec), true)
}

var (
	widthByHeight = regexp.MustCompile(`^(\d{1,5}) ?[x×X*] ?(\d{1,5})(?: ?(?:px|pixels))?$`)
	lines         = regexp.MustCompile(`^(\d{3,4}) ?[pP]$`)
	megapixels    = regexp.MustCompile(`^(\d{1,4}(?:\.\d{1,9})?) ?(?i:mp|mpx|megapixels?)$`)
)

const resolutionRight = `pixels across and down, such as "2560x1440", or "1080p" or "4 MP"`

// readPixels reads the pixels of a frame, 100 to 10^9.
func readPixels(t *toml.Table, dst *float64) bool {
	if !t.Given("resolution") && (t.Given("width") || t.Given("height")) {
		t.Ask("resolution", toml.Fallback{}, "")
		var width, height int
		t.Count("width", toml.Required, toml.Limits{Low: 10, High: 30_000}, &width)
		t.Count("height", toml.Required, toml.Limits{Low: 10, High: 30_000}, &height)
		*dst = float64(width) * float64(height)
		return *dst > 0
	}
	for _, key := range []string{"width", "height"} {
		if n := t.Ask(key, toml.Fallback{}, ""); n != nil {
			t.WrongAt(n, key, "it beside resolution", "one or the other", "")
		}
	}
	n := t.Ask("resolution", toml.Required, resolutionRight)
	if n == nil {
		return false
	}
	px, ok := 0.0, n.Kind == toml.StringNode
	if ok {
		px, ok = parseResolution(n.Text)
	}
	if !ok || px < 100 || px > 1e9 {
		t.WrongAt(n, "resolution", n.Shown(), resolutionRight, "")
		return false
	}
	*dst = px
	t.NoteValue("resolution", n.Text)
	return true
}

func parseResolution(written string) (pixels float64, ok bool) {
	s := strings.Join(strings.Fields(written), " ")
	if m := widthByHeight.FindStringSubmatch(s); m != nil {
		w, _ := strconv.ParseFloat(m[1], 64)
		h, _ := strconv.ParseFloat(m[2], 64)
		return w * h, true
	}
	if m := lines.FindStringSubmatch(s); m != nil { // 16:9
		h, _ := strconv.ParseFloat(m[1], 64)
		return h * h * 16 / 9, true
	}
	if m := megapixels.FindStringSubmatch(s); m != nil {
		mp, _ := strconv.ParseFloat(m[1], 64)
		return mp * 1e6, true
	}
	return 0, false
}

// readCodec reads the name of a codec.
func readCodec(t *toml.Table, dst *array.Codec) bool {
	var names []string
	for _, c := range array.Codecs() {
		names = append(names, c.String())
	}
	right := "one of " + strings.Join(names, ", ")
	n := t.Ask("codec", toml.Required, right)
	if n == nil {
		return false
	}
	c, err := array.ParseCodec(n.Text)
	if n.Kind != toml.StringNode || err != nil {
		t.WrongAt(n, "codec", n.Shown(), right, nearest.Name(n.Text, names))
		return false
	}
	*dst = c
	t.NoteValue("codec", c.String())
	return true
}
