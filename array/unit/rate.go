package unit

import "strings"

var rates = kind{
	units:   perSecond(sizeUnits),
	fold:    foldRate,
	right:   "bytes a second: kB/s, MB/s or GB/s (powers of 1000), or KiB/s, MiB/s or GiB/s (powers of 1024)",
	example: "210 MB/s",
	near:    nearRate,
}

// Rate reads a rate of transfer: "210 MB/s", "200 MiB/s". The result is in
// bytes/s, 0 or more. A rate in bits is an error that gives it in bytes.
func Rate(text string) (float64, error) { return rates.parse(text) }

var bitUnits = map[string]float64{
	"bit/s": 1, "kbit/s": 1e3, "Mbit/s": 1e6, "Gbit/s": 1e9,
	"kb/s": 1e3, "Mb/s": 1e6, "Gb/s": 1e9,
	"kbps": 1e3, "Mbps": 1e6, "Gbps": 1e9,
}

var bitRates = kind{
	units:   bitUnits,
	fold:    foldBitRate,
	right:   "bits a second: kbit/s, Mbit/s or Gbit/s",
	example: "6 Mbit/s",
	near:    nearBitRate,
}

// BitRate reads the rate of a stream: "6 Mbit/s", or "6 Mbps" or "6 Mb/s" in
// exactly that case. The result is in bit/s, 0 or more. A rate in bytes is an
// error that gives it in bits.
func BitRate(text string) (float64, error) { return bitRates.parse(text) }

func perSecond(of map[string]float64) map[string]float64 {
	per := make(map[string]float64, len(of))
	for name, factor := range of {
		per[name+"/s"] = factor
	}
	return per
}

func foldRate(written string) (string, bool) {
	size, ok := strings.CutSuffix(tight(written), "/s")
	if !ok {
		return "", false
	}
	if _, ok := sizeUnits[size]; ok {
		return size + "/s", true
	}
	folded, ok := foldSize(size)
	return folded + "/s", ok
}

// foldBitRate forgives the case of the prefix where "bit" is written out.
func foldBitRate(written string) (string, bool) {
	prefix, ok := strings.CutSuffix(tight(written), "bit/s")
	if !ok {
		return tight(written), true
	}
	switch prefix {
	case "K":
		return "kbit/s", true
	case "m", "g":
		return strings.ToUpper(prefix) + "bit/s", true
	}
	return tight(written), true
}

// perUnit takes the second off a rate, however it is written.
func perUnit(written string) string {
	s := tight(written)
	for _, end := range []string{"/s", "/S", "/sec", "/second", "ps", "PS", "Ps"} {
		if before, ok := strings.CutSuffix(s, end); ok && before != "" {
			return before
		}
	}
	return s
}

// nearRate gives a rate that is plainly in bits in bytes, and else the nearest
// spelling.
func nearRate(value float64, written string) string {
	if name, ok := bitName(written); ok {
		return shortest(value/8) + " " + strings.TrimSuffix(name, "bit/s") + "B/s"
	}
	if size := nearSize(perUnit(written)); size != "" {
		return suggest(value, size+"/s")
	}
	return ""
}

// bitName returns the unit of bits that was written, where that is beyond doubt.
func bitName(written string) (string, bool) {
	name, _ := foldBitRate(written)
	factor, ok := bitUnits[name]
	if !ok {
		return "", false
	}
	for _, spelled := range []string{"bit/s", "kbit/s", "Mbit/s", "Gbit/s"} {
		if bitUnits[spelled] == factor {
			return spelled, true
		}
	}
	return "", false
}

// nearBitRate gives a rate that is plainly in bytes in bits, and else the
// nearest spelling: cameras are set in bits, so "6 mbps" means those.
func nearBitRate(value float64, written string) string {
	unit := perUnit(written)
	per := unit != tight(written)
	if name, ok := strings.CutSuffix(unit, "B"); ok && per && len(name) <= 1 {
		if size := nearSize(unit); size != "" && size != "TB" && size != "PB" {
			return suggest(value*8, strings.TrimSuffix(size, "B")+"bit/s")
		}
	}
	s := strings.ToLower(unit)
	s = strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(s, "s"), "it"), "b")
	switch s {
	case "":
		return suggest(value, "bit/s")
	case "k":
		return suggest(value, "kbit/s")
	case "m", "g":
		return suggest(value, strings.ToUpper(s)+"bit/s")
	}
	return ""
}
