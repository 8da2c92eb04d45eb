package site

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// bitRates bounds the rate of one camera, given or estimated.
var bitRates = between{"1 kbit/s", "10 Gbit/s"}

// pictureKeys are what a bit rate can be estimated from.
var pictureKeys = []string{"resolution", "width", "height", "frames_per_second", "codec"}

// bitRate reads the rate of a camera, or what it is estimated from.
func (t *table) bitRate(c *array.Cameras) {
	pictured := false
	for _, key := range pictureKeys {
		pictured = pictured || t.given(key)
	}
	if pictured && !t.given("bitrate") {
		t.ask("bitrate", fallback{}, "")
		t.picture(c)
		return
	}
	// Told apart from the reading of the value, since much more would do.
	if !t.given("bitrate") {
		t.ask("bitrate", required, aBitRate.right(bitRates)+", or resolution, frames_per_second and codec to estimate it from")
	} else {
		t.quantity("bitrate", aBitRate, required, bitRates, &c.BitRate)
	}
	for _, key := range pictureKeys {
		if n := t.ask(key, fallback{}, ""); n != nil {
			t.tell(key, n.shown()+": not used, since the bit rate is given")
		}
	}
}

// picture reads what the cameras send, and estimates the bit rate.
func (t *table) picture(c *array.Cameras) {
	p := array.Picture{}
	pixels := t.pixels(&p.Pixels)
	t.number("frames_per_second", required, limits{0.01, 1000}, &p.FramesPerSecond)
	codec := t.codec(&p.Codec)
	if !pixels || !codec || p.FramesPerSecond == 0 {
		return
	}
	low, likely, high := p.BitRate()
	span := fmt.Sprintf("%s, %s to %s", unit.FormatBitRate(likely), unit.FormatBitRate(low), unit.FormatBitRate(high))
	if low < aBitRate.bound(bitRates.low) || high > aBitRate.bound(bitRates.high) {
		t.wrong("codec", "an estimated bit rate of "+span, bitRates.said(), "")
		return
	}
	c.Picture, c.BitRate = p, likely
	l, m, h := p.Codec.BitsPerPixel()
	t.note(t.lastOwn(), path(t.path, "bitrate"), fmt.Sprintf("an estimate: %s (%s, %s to %s bits per pixel of %s: common practice, no source)",
		span, unit.Digits(m, 3), unit.Digits(l, 3), unit.Digits(h, 3), p.Codec), true)
}

var (
	widthByHeight = regexp.MustCompile(`^(\d{1,5}) ?[x×X*] ?(\d{1,5})(?: ?(?:px|pixels))?$`)
	lines         = regexp.MustCompile(`^(\d{3,4}) ?[pP]$`)
	megapixels    = regexp.MustCompile(`^(\d{1,4}(?:\.\d{1,9})?) ?(?i:mp|mpx|megapixels?)$`)
)

const resolutionRight = `pixels across and down, such as "2560x1440", or "1080p" or "4 MP"`

// pixels reads the pixels of a frame, 100 to 10^9.
func (t *table) pixels(dst *float64) bool {
	if !t.given("resolution") && (t.given("width") || t.given("height")) {
		t.ask("resolution", fallback{}, "")
		var width, height int
		t.count("width", required, limits{10, 30_000}, &width)
		t.count("height", required, limits{10, 30_000}, &height)
		*dst = float64(width) * float64(height)
		return *dst > 0
	}
	for _, key := range []string{"width", "height"} {
		if n := t.ask(key, fallback{}, ""); n != nil {
			t.wrongAt(n, key, "it beside resolution", "one or the other", "")
		}
	}
	n := t.ask("resolution", required, resolutionRight)
	if n == nil {
		return false
	}
	px, ok := 0.0, n.kind == text
	if ok {
		px, ok = parseResolution(n.text)
	}
	if !ok || px < 100 || px > 1e9 {
		t.wrongAt(n, "resolution", n.shown(), resolutionRight, "")
		return false
	}
	*dst = px
	t.tell("resolution", n.text)
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

// codec reads the name of a codec.
func (t *table) codec(dst *array.Codec) bool {
	var names []string
	for _, c := range array.Codecs() {
		names = append(names, c.String())
	}
	right := "one of " + strings.Join(names, ", ")
	n := t.ask("codec", required, right)
	if n == nil {
		return false
	}
	c, err := array.ParseCodec(n.text)
	if n.kind != text || err != nil {
		t.wrongAt(n, "codec", n.shown(), right, nearest(n.text, names))
		return false
	}
	*dst = c
	t.tell("codec", c.String())
	return true
}
