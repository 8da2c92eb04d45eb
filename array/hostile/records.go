package hostile

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"fmt"
	"strings"
)

// Records returns hostile records of fleets.
func Records() []Input {
	const (
		ages  = "hours,failed\n"
		label = "hours,failed,label\n"
		sums  = "drive_days,failures,label\n"
		dates = "installed,removed,failed\n"
		snaps = "date,serial_number,model,capacity_bytes,failure\n"
		csv   = "record.csv"
	)
	refused := func(name, file string, size int, make func(int) []byte) Input {
		return Input{name, file, make, size, false}
	}
	read := func(name string, size int, make func(int) []byte) Input { return Input{name, csv, make, size, true} }
	blocks := func(again string) func(int) []byte { // 64 KiB, so often
		return text(ages, strings.Repeat(again, 1<<16/len(again)), "")
	}
	return []Input{
		refused("headings", csv, 500_000, text("", "a,", "\n")),
		refused("further headings", csv, 500_000, text("hours,failed", ",a", "\n1,0\n")),
		refused("mistakes", csv, 1_000_000, text(ages, "x,y\n", "")),
		refused("cells", csv, 500_000, text(ages, ",", "\n")),
		refused("a long row", csv, 20_000_000, text(ages, "1", "")),
		refused("a quote without end", csv, 3_000_000, text(ages+"\"", "\n", "")),
		refused("quotes", csv, 1_000_000, text(ages, "\"a\"x\n", "")),
		refused("NULs", csv, 5_000_000, text(ages, "\x00", "")),
		refused("NULs in quotes", csv, 300_000, text(ages, "\"1\x00\",0\n", "")),
		refused("no UTF-8", csv, 300_000, text(label, "1,1,\xff\n", "")),
		refused("huge numbers", csv, 300_000, text(ages, "1e308,1\n", "")),
		refused("blank rows", csv, 10_000_000, text(ages, "\n", "")),
		refused("labels", csv, 20_000, numbered(sums, func(i int) string { return fmt.Sprintf("1000,1,l%d\n", i) }, "")),
		refused("sums", csv, 100_001, text(sums, "1000,1,a\n", "")),
		refused("drives that run on", csv, 300_000, text(dates, "2020-01-01,,no\n", "")),
		refused("blank rows, packed", "record.csv.gz", 500, packedGzip(blocks("\n"))),
		refused("wide rows, packed", "record.csv.gz", 500, packedGzip(blocks("1,0"+strings.Repeat(" ", 8189)+"\n"))),
		refused("NULs, packed", "record.csv.gz", 320, packedGzip(blocks("\x00"))),
		refused("headings, packed", "record.csv.gz", 320, packedGzip(blocks("a,"))),
		refused("parts of gzip", "record.csv.gz", 30_000, func(n int) []byte { return bytes.Repeat(packedGzip(text("x", "", ""))(1), n) }),
		refused("blank rows, zipped", "record.zip", 500, func(n int) []byte { return packed(map[string][]byte{"a.csv": blocks("\n")(n)}) }),
		refused("members", "record.zip", 20_000, func(n int) []byte {
			all := map[string][]byte{}
			for i := range n {
				all[fmt.Sprintf("m%d.csv", i)] = []byte("q")
			}
			return packed(all)
		}),
		refused("packed within packed", "record.csv.gz", 20, func(n int) []byte {
			data := []byte(ages)
			for range n {
				data = packedGzip(func(int) []byte { return data })(1)
			}
			return data
		}),
		read("drives", 300_000, text(ages, "1000,0\n", "2000,1\n")),
		read("all labels", 3_000, numbered(sums, func(i int) string { return fmt.Sprintf("1000,1,l%d\n", i) }, "")),
		read("snapshots of many drives", 150_000, numbered(snaps, func(i int) string {
			return fmt.Sprintf("2024-01-01,%s%d,M,1000,0\n", strings.Repeat("s", 50), i)
		}, "")),
	}
}

// packedGzip packs what another one makes.
func packedGzip(make func(int) []byte) func(int) []byte {
	return func(n int) []byte {
		var b bytes.Buffer
		w := gzip.NewWriter(&b)
		w.Write(make(n)) // into memory, which does not fail
		w.Close()
		return b.Bytes()
	}
}

// packed is a zip archive.
func packed(parts map[string][]byte) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, data := range parts {
		if w, err := z.Create(name); err == nil {
			w.Write(data) // into memory, which does not fail
		}
	}
	z.Close()
	return b.Bytes()
}
