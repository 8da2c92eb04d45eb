package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
)

var parsers = map[string]func(string) (float64, error){
	"size": Size, "rate": Rate, "bit rate": BitRate, "hours": Hours,
	"percent": Percent, "share": Share, "watts": Watts, "bits per error": BitsPerError, "odds": Odds, "workload": Workload,
}

// TestParse: the factors are those of the SI and of IEC 80000-13.
func TestParse(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		as, text string
		want     float64
	}{
		{"size", "12 TB", 12e12},
		{"size", "12TB", 12e12},
		{"size", "  12   TB ", 12e12},
		{"size", "12 tB", 12e12},
		{"size", "12 TiB", 13194139533312},
		{"size", "12 TIB", 13194139533312},
		{"size", "1 KiB", 1024},
		{"size", "1 kB", 1000},
		{"size", "512 MiB", 536870912},
		{"size", "1.5 GB", 1.5e9},
		{"size", "2 PiB", 2251799813685248},
		{"size", "1 000 000 B", 1e6},
		{"size", "1\u00a0000\u202f000 B", 1e6},
		{"size", "1_000_000 B", 1e6},
		{"size", "1e3 GB", 1e12},
		{"size", "1.2e+3 GB", 1.2e12},
		{"size", "+4 TB", 4e12},
		{"rate", "210 MB/s", 210e6},
		{"rate", "210MB / s", 210e6},
		{"rate", "200 MiB/s", 200 * 1048576},
		{"rate", "1.2 GB/s", 1.2e9},
		{"workload", "550 TB/y", 550e12},
		{"workload", "550 tB / year", 550e12},
		{"workload", "0.5 PiB/a", 1 << 49},
		{"bit rate", "6 Mbit/s", 6e6},
		{"bit rate", "6 mbit/s", 6e6},
		{"bit rate", "512 kbit/s", 512e3},
		{"bit rate", "6 Mbps", 6e6},
		{"bit rate", "6 Mb/s", 6e6},
		{"bit rate", "1 Gbit/s", 1e9},
		{"hours", "48 h", 48},
		{"hours", "48H", 48},
		{"hours", "30 min", 0.5},
		{"hours", "90 s", 0.025},
		{"hours", "30 d", 720},
		{"hours", "2 weeks", 336},
		{"hours", "5 y", 43800},
		{"hours", "1 year", 8760},
		{"hours", "0 h", 0},
		{"hours", "1 000 000 h", 1e6},
		{"percent", "1.5 %", 0.015},
		{"percent", "1.5%", 0.015},
		{"percent", "250 %", 2.5},
		{"share", "0.015", 0.015},
		{"share", "1.5 %", 0.015},
		{"watts", "7 W", 7},
		{"watts", "0.5 kW", 500},
		{"bits per error", "1 in 1e15 bits", 1e15},
		{"bits per error", "1 in 10^15 bits", 1e15},
		{"bits per error", "1 per 10E14 bits read", 1e15},
	} {
		got, err := parsers[c.as](c.text)
		if err != nil {
			t.Errorf("%s %q: %v", c.as, c.text, err)
		} else if math.Abs(got-c.want) > 1e-12*c.want {
			t.Errorf("%s %q is %v, want %v", c.as, c.text, got, c.want)
		}
	}
}

func TestRefuse(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ as, text, says string }{
		{"size", "12 Tb", `found "12 Tb", with the unit "Tb"; right would be B, kB, MB, GB, TB or PB (powers of 1000), or KiB, MiB, GiB, TiB or PiB (powers of 1024) (did you mean "12 TB"?)`},
		{"size", "12 tb", `did you mean "12 TB"`},
		{"size", "12 T", `did you mean "12 TB"`},
		{"size", "12 terabytes", `did you mean "12 TB"`},
		{"size", "12 Tbit", `did you mean "12 TB"`},
		{"size", "12 Tib", `did you mean "12 TiB"`},
		{"size", "12 KB", `did you mean "12 kB"`},
		{"size", "12", "without a unit"},
		{"size", "", "found nothing"},
		{"size", "TB", "does not begin with a number"},
		{"size", "-12 TB", "below zero"},
		{"size", "−12 TB", "below zero"},
		{"size", "NaN TB", "not a finite number"},
		{"size", "Inf TB", "not a finite number"},
		{"size", "+inf TB", "not a finite number"},
		{"size", "0x10 TB", "hexadecimal"},
		{"size", "1e400 TB", "too large"},
		{"size", "1e308 TB", "too large"},
		{"size", "1e-400 TB", "too small"},
		{"size", "1,5 TB", "comma"},
		{"size", "1.2.3 TB", "cannot be read"},
		{"size", "12 3 TB", "cannot be read"},
		{"size", "1__0 TB", "cannot be read"},
		{"size", "12 TB TB", `with the unit "TB TB"`},
		{"size", "12 h", `with the unit "h"`},
		{"rate", "210 MB", `did you mean "210 MB/s"`},
		{"rate", "210 Mb/s", `did you mean "26.25 MB/s"`},
		{"rate", "210 Mbit/s", `did you mean "26.25 MB/s"`},
		{"rate", "210 mb/s", `did you mean "210 MB/s"`},
		{"rate", "210 MBps", `did you mean "210 MB/s"`},
		{"bit rate", "6 MB/s", `did you mean "48 Mbit/s"`},
		{"bit rate", "6 MBps", `did you mean "48 Mbit/s"`},
		{"bit rate", "6 mbps", `did you mean "6 Mbit/s"`},
		{"bit rate", "6 MBPS", `right would be bits a second`},
		{"bit rate", "6 Mbit", `did you mean "6 Mbit/s"`},
		{"bit rate", "6", "without a unit"},
		{"hours", "5 m", `did you mean "5 min"`},
		{"hours", "2 months", `did you mean "60 d"`},
		{"hours", "48", `did you mean "48 h"`},
		{"hours", "1e308 y", "too large"},
		{"percent", "0.5", `in per cent: "0.5 %" or "50 %"`},
		{"percent", "1,5 %", "comma"},
		{"share", "5 TB", "per cent"},
		{"watts", "7", `did you mean "7 W"`},
		{"watts", "7 mW", `with the unit "mW"`},
		{"bits per error", "1e-15", `does not begin with "1 in"`},
		{"bits per error", "1 in 1e15", `did you mean "1 in 1e15 bits"`},
		{"bits per error", "1 in 1e14 bytes", `did you mean "1 in 8e14 bits"`},
		{"bits per error", "1 in 0 bits", "0 bits"},
		{"bits per error", "1 in -5 bits", "below zero"},
	} {
		v, err := parsers[c.as](c.text)
		if err == nil {
			t.Errorf("%s %q was accepted as %v", c.as, c.text, v)
			continue
		}
		var e *Error
		if !errors.As(err, &e) || e.Found == "" || e.Right == "" {
			t.Errorf("%s %q: the error does not say what was found and what is right: %v", c.as, c.text, err)
		}
		if !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %q says\n  %v\nwithout\n  %s", c.as, c.text, err, c.says)
		}
	}
}

func TestErrorsAreShortAndPlain(t *testing.T) {
	t.Parallel()
	_, err := Size("12 " + strings.Repeat("x\x1b[31m\n", 10000))
	if s := err.Error(); len(s) > 1000 || strings.ContainsAny(s, "\x1b\n") {
		t.Errorf("%d bytes: %.80q", len(s), s)
	}
}

func TestOf(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"24 h": "h", " 1 000  hours": "hours", "1.5%": "%", "210 MB / s": "MB / s", "0.5": "", "h": "", "": "", "1 in 1e15 bits": "in 1e15 bits",
	} {
		if got := Of(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
