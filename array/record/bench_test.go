package record

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
)

// days is a made snapshot record: so many days of so many drives. Beyond the
// columns of the form it has those of a drive's own counters, as the open
// datasets do, 92 of them.
func snapshotText(days, drives, counters int) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	var b bytes.Buffer
	b.WriteString("date,serial_number,model,capacity_bytes,failure")
	for i := range counters {
		fmt.Fprintf(&b, ",smart_%d_normalized,smart_%d_raw", i+1, i+1)
	}
	b.WriteByte('\n')
	for d := range days {
		for i := range drives {
			fmt.Fprintf(&b, "2025-%02d-%02d,SN%08X,model %c%02d,12000138625024,0", 1+d/28, 1+d%28, uint32(i)*2654435761, 'A'+i%7, i%20)
			for c := range counters {
				switch {
				case c == 8:
					fmt.Fprintf(&b, ",95,%d", i%30000+24*d)
				case c%3 == 0:
					b.WriteString(",,")
				default:
					fmt.Fprintf(&b, ",100,%d", r.IntN(1<<r.IntN(30)))
				}
			}
			b.WriteByte('\n')
		}
	}
	return b.Bytes()
}

// BenchmarkSnapshots reads rows as wide as those of the open datasets, and the
// narrowest there can be.
func BenchmarkSnapshots(b *testing.B) {
	for _, c := range []struct {
		name                   string
		days, drives, counters int
	}{{"wide", 20, 5000, 46}, {"narrow", 100, 10000, 0}} {
		text := snapshotText(c.days, c.drives, c.counters)
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				got, err := Read(b.Context(), bytes.NewReader(text), "x.csv", Options{})
				if err != nil || got.Rows != c.days*c.drives {
					b.Fatal(err)
				}
			}
		})
		// What encoding/csv takes to split the same, without making anything of it.
		b.Run(c.name+"/encoding-csv", func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				r := csv.NewReader(strings.NewReader(string(text)))
				r.ReuseRecord = true
				for {
					if _, err := r.Read(); err == io.EOF {
						break
					} else if err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}
