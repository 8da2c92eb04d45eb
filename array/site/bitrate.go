package site

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/pattern"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// readBitRate reads the rate of a camera, or what it is estimated from.
func readBitRate(t *toml.Table, c *array.Cameras) {
	const key = "bitrate"
	picture := t.Key(key).Instead
	switch {
	case t.Given(key):
		t.Quantity(key, &c.BitRate)
		for _, key := range picture {
			if n := t.Ask(key); n != nil {
				t.NoteValue(key, n.Shown()+": not used, since the bit rate is given")
			}
		}
	case slices.ContainsFunc(picture, t.Given):
		t.Ask(key)
		readPicture(t, c)
	default:
		t.Ask(key)
		t.Know(picture...)
	}
}

// readPicture reads what the cameras send, and estimates the bit rate.
func readPicture(t *toml.Table, c *array.Cameras) {
	p := array.Picture{}
	pixels := readPixels(t, &p.Pixels)
	t.Number("frames_per_second", &p.FramesPerSecond)
	codec := readCodec(t, &p.Codec)
	if !pixels || !codec || p.FramesPerSecond == 0 {
		return
	}
	low, likely, high := p.BitRate()
	span := fmt.Sprintf("%s, %s to %s", unit.FormatBitRate(likely), unit.FormatBitRate(low), unit.FormatBitRate(high))
	bounds := t.Key("bitrate")
	if least, most := bounds.Bounds(); low < least || high > most {
		t.Wrong("codec", "an estimated bit rate of "+span, bounds.Limits(), "")
		return
	}
	c.Picture, c.BitRate = p, likely
	l, m, h := p.Codec.BitsPerPixel()
	t.Note(t.LastOwn(), toml.Join(t.Path, "bitrate"), fmt.Sprintf("an estimate: %s (%s, %s to %s bits per pixel of %s: common practice, no source)",
		span, unit.Digits(m, 3), unit.Digits(l, 3), unit.Digits(h, 3), p.Codec), true)
}

// readPixels reads the pixels of a frame, 100 to 10^9.
func readPixels(t *toml.Table, dst *float64) bool {
	const key = "resolution"
	n := t.Ask(key)
	sides := t.Key(key).Instead
	if !t.Given(key) && slices.ContainsFunc(sides, t.Given) {
		var width, height int
		t.Count("width", &width)
		t.Count("height", &height)
		*dst = float64(width) * float64(height)
		return *dst > 0
	}
	t.Know(sides...)
	for _, side := range sides {
		if t.Given(side) && t.Ask(side) != nil {
			t.Wrong(side, "it beside "+key, "one or the other", "")
		}
	}
	if n == nil {
		return false
	}
	px, ok := 0.0, n.Kind == toml.StringNode
	if ok {
		px, ok = parseResolution(n.Text)
	}
	if !ok || px < 100 || px > 1e9 {
		t.WrongAt(n, key, n.Shown(), t.Key(key).Expected(), "")
		return false
	}
	*dst = px
	t.NoteValue(key, n.Text)
	return true
}

var (
	widthByHeight = pattern.Of(`^(\d{1,5}) ?[x×X*] ?(\d{1,5})(?: ?(?:px|pixels))?$`)
	lines         = pattern.Of(`^(\d{3,4}) ?[pP]$`)
	megapixels    = pattern.Of(`^(\d{1,4}(?:\.\d{1,9})?) ?(?i:mp|mpx|megapixels?)$`)
	twoSides      = pattern.Of(`\d{1,5} ?[x×X*] ?\d{1,5}(?: ?(?:px|pixels))?`)
)

// pictures is the pixels of pictures that have names, in small letters without blanks
// and hyphens. 2K is none of them: some mean 2048 and some 2560 across.
var pictures = map[string]float64{
	// Recommendation ITU-R BT.2020: UHDTV.
	"4k": 3840 * 2160, "uhd": 3840 * 2160, "ultrahd": 3840 * 2160, "4kuhd": 3840 * 2160, "4kultrahd": 3840 * 2160, "uhd4k": 3840 * 2160, "uhd1": 3840 * 2160,
	"8k": 7680 * 4320, "8kuhd": 7680 * 4320, "8kultrahd": 7680 * 4320, "uhd8k": 7680 * 4320, "uhd2": 7680 * 4320,
	// Recommendation ITU-R BT.709: HDTV.
	"fullhd": 1920 * 1080, "fhd": 1920 * 1080,
	// SMPTE ST 296.
	"hd": 1280 * 720, "hdready": 1280 * 720,
	// Recommendation ITU-T H.263: source formats.
	"4cif": 704 * 576, "cif": 352 * 288, "qcif": 176 * 144,
	// Common practice, no source: four times HD, and what computer displays had.
	"qhd": 2560 * 1440, "wqhd": 2560 * 1440, "quadhd": 2560 * 1440,
	"uxga": 1600 * 1200, "sxga": 1280 * 1024, "xga": 1024 * 768, "svga": 800 * 600, "vga": 640 * 480,
}

// sameWithin is how far two ways of giving one picture may be apart: 2 MP is 1080p.
const sameWithin = 0.1

// parseResolution returns the pixels of a picture, which may be given in two ways:
// "5 MP (2592 x 1944)", "1080p / 2 MP". Then width and height count, or else the first,
// and they must agree.
func parseResolution(written string) (pixels float64, ok bool) {
	s := strings.Join(strings.Fields(written), " ")
	if px, ok := parsePicture(s); ok {
		return px, true
	}
	parts := append(twoSides().FindAllString(s, -1), strings.FieldsFunc(twoSides().ReplaceAllString(s, "/"), func(r rune) bool { return strings.ContainsRune("()[]/,;=", r) })...)
	for _, part := range parts {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		px, ok := parsePicture(part)
		switch {
		case !ok, pixels > 0 && math.Abs(px/pixels-1) > sameWithin:
			return 0, false
		case pixels == 0:
			pixels = px
		}
	}
	return pixels, pixels > 0
}

// parsePicture reads one way of giving a picture.
func parsePicture(s string) (pixels float64, ok bool) {
	if m := widthByHeight().FindStringSubmatch(s); m != nil {
		w, _ := strconv.ParseFloat(m[1], 64)
		h, _ := strconv.ParseFloat(m[2], 64)
		return w * h, true
	}
	if m := lines().FindStringSubmatch(s); m != nil { // 16:9
		h, _ := strconv.ParseFloat(m[1], 64)
		return h * h * 16 / 9, true
	}
	if m := megapixels().FindStringSubmatch(s); m != nil {
		mp, _ := strconv.ParseFloat(m[1], 64)
		return mp * 1e6, true
	}
	pixels, ok = pictures[strings.NewReplacer(" ", "", "-", "").Replace(strings.ToLower(s))]
	return pixels, ok
}

// readCodec reads the name of a codec.
func readCodec(t *toml.Table, dst *array.Codec) bool {
	const key = "codec"
	n := t.Ask(key)
	if n == nil {
		return false
	}
	c, err := array.ParseCodec(n.Text)
	if n.Kind != toml.StringNode || err != nil {
		k := t.Key(key)
		t.WrongAt(n, key, n.Shown(), k.Expected(), nearest.Name(n.Text, k.Words))
		return false
	}
	*dst = c
	t.NoteValue(key, c.String())
	return true
}

// codecNames returns the codecs as a site file writes them.
func codecNames() (names []string) {
	for _, c := range array.Codecs() {
		names = append(names, c.String())
	}
	return names
}
