package site

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // so that image knows them
	_ "image/png"
	slash "path"

	"arrayodds/array"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// Bounds of a logo. A browser unpacks it whole, four bytes a pixel.
const (
	maxLogoBytes = 256 << 10
	maxLogoSide  = 4096 // pixels
)

const logoRight = `a PNG or JPEG file beside the site file or in a folder beneath it, such as "logo.png"`

// logo is a logo as it was read once: it is not opened again.
type logo struct {
	node    *toml.Node
	path    string // empty: none was read
	picture array.Logo
}

// readLogo reads the logo that the table names.
func (r *reader) readLogo(t *toml.Table) array.Logo {
	const key = "logo"
	n := t.Ask(key)
	if n == nil {
		return array.Logo{}
	}
	if r.before != nil && n == r.before.node {
		r.logo = *r.before
		return r.logo.picture
	}
	name, ok := t.Line(key, n)
	if !ok {
		return array.Logo{}
	}
	wrong := func(why, right string) array.Logo {
		t.WrongAt(n, key, unit.Quote(name)+why, right, "")
		return array.Logo{}
	}
	data, why := r.opened(name, maxLogoBytes)
	if why != "" {
		return wrong(why, logoRight)
	}
	if len(data) > maxLogoBytes {
		return wrong(", a larger file", fmt.Sprintf("at most %d KiB", maxLogoBytes>>10))
	}
	size, format, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil || format != "png" && format != "jpeg": // others may be known to image by then
		return wrong(", which is neither PNG nor JPEG", logoRight)
	case size.Width < 1 || size.Height < 1 || size.Width > maxLogoSide || size.Height > maxLogoSide:
		return wrong(fmt.Sprintf(", of %d by %d pixels", size.Width, size.Height), fmt.Sprintf("1 to %s pixels a side", unit.Digits(maxLogoSide, 4)))
	}
	r.logo = logo{n, slash.Clean(name), array.Logo{MediaType: "image/" + format, Bytes: data, Width: size.Width, Height: size.Height}}
	return r.logo.picture
}
