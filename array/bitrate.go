package array

import (
	"fmt"
	"strings"
)

// A Codec is a way of compressing video, by the name of its standard.
type Codec int

// The codecs that a bit rate can be estimated for.
const (
	NoCodec Codec = iota // the bit rate is given, not estimated
	H264                 // H.264, also called AVC
	H265                 // H.265, also called HEVC
	AV1
	MJPEG // every frame a JPEG picture of its own
)

// codec is what is known of a codec. Bits per pixel of a scene watched by a
// fixed camera: a still scene by day takes the least, rain, foliage, crowds and
// the noise of night the most (common practice, no source; from memory).
type codec struct {
	name              string
	spellings         []string
	low, likely, high float64
}

var codecs = [...]codec{
	H264:  {"H.264", []string{"h264", "avc", "h264avc", "avch264", "mpeg4avc"}, 0.04, 0.08, 0.16},
	H265:  {"H.265", []string{"h265", "hevc", "h265hevc", "hevch265"}, 0.025, 0.05, 0.1},
	AV1:   {"AV1", []string{"av1"}, 0.02, 0.04, 0.09},
	MJPEG: {"MJPEG", []string{"mjpeg", "mjpg", "motionjpeg"}, 0.5, 1, 2},
}

// Codecs lists the codecs that have figures.
func Codecs() []Codec { return []Codec{H264, H265, AV1, MJPEG} }

// String returns the codec as a site file writes it.
func (c Codec) String() string { return codecs[c].name }

// BitsPerPixel returns what one pixel of one frame takes: low, likely and high
// (common practice, no source; from memory).
func (c Codec) BitsPerPixel() (low, likely, high float64) {
	k := codecs[c]
	return k.low, k.likely, k.high
}

// ParseCodec reads the name of a codec without regard to case, blanks, points,
// hyphens and strokes: "H.264", "h265", "HEVC", "H.264/AVC".
func ParseCodec(name string) (Codec, error) {
	plain := strings.NewReplacer(" ", "", ".", "", "-", "", "_", "", "/", "", "(", "", ")", "").Replace(strings.ToLower(name))
	for _, c := range Codecs() {
		for _, s := range codecs[c].spellings {
			if s == plain {
				return c, nil
			}
		}
	}
	return NoCodec, fmt.Errorf("no codec is called %q", name)
}

// A Picture is what a camera sends, where its bit rate is estimated from that.
// The zero value says that it is not.
type Picture struct {
	Pixels          float64 // width × height of a frame
	FramesPerSecond float64
	Codec           Codec
}

// BitRate returns an estimate in bit/s: pixels × frames per second × bits per pixel.
// The true rate depends on the scene, the light and the encoder's settings, and
// can lie outside of low and high.
func (p Picture) BitRate() (low, likely, high float64) {
	l, m, h := p.Codec.BitsPerPixel()
	perSecond := p.Pixels * p.FramesPerSecond
	return perSecond * l, perSecond * m, perSecond * h
}

// Estimated reports whether the group's bit rate is an estimate.
func (c Cameras) Estimated() bool { return c.Picture.Codec != NoCodec }

// Estimated reports whether the demand rests on an estimated bit rate.
func (s Site) Estimated() bool {
	for _, c := range s.Cameras {
		if c.Estimated() {
			return true
		}
	}
	return false
}

// Lowest returns the site with every estimated bit rate at the low end of its range.
func (s Site) Lowest() Site {
	return s.withRates(func(p Picture) float64 { low, _, _ := p.BitRate(); return low })
}

// Highest returns the site with every estimated bit rate at the high end of its
// range: all of them at once, since scenes, light and settings go together.
func (s Site) Highest() Site {
	return s.withRates(func(p Picture) float64 { _, _, high := p.BitRate(); return high })
}

func (s Site) withRates(of func(Picture) float64) Site {
	cameras := make([]Cameras, len(s.Cameras))
	for i, c := range s.Cameras {
		if c.Estimated() {
			c.BitRate = of(c.Picture)
		}
		cameras[i] = c
	}
	s.Cameras = cameras
	return s
}
