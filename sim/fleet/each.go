package fleet

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"math"
	"sync"
	"sync/atomic"

	"arrayodds/sim/engine"
)

// each does n things by so many workers, and tells how far it is. What is done may depend
// on the worker for its memory only. It ends early where the context is done.
func each(ctx context.Context, workers, n int, progress func(engine.Progress), do func(worker, i int)) {
	var next atomic.Int64
	var group sync.WaitGroup
	var mu sync.Mutex
	done, told := 0, 0
	tell := func() {
		mu.Lock()
		defer mu.Unlock()
		if done++; progress != nil && (done-told)*200 >= n {
			told = done
			progress(engine.Progress{Share: float64(done) / float64(n)})
		}
	}
	for w := range min(workers, n) {
		group.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				do(w, i)
				tell()
			}
		})
	}
	group.Wait()
}

// keyOf returns what tells an array from others that are not alike to the last figure.
func keyOf(a *Array) string {
	b := make([]byte, 0, 64+48*len(a.State.Drives))
	text := func(s string) {
		b = binary.AppendUvarint(b, uint64(len(s)))
		b = append(b, s...)
	}
	number := func(x float64) { b = binary.BigEndian.AppendUint64(b, math.Float64bits(x)) }
	flag := func(x bool) {
		if x {
			b = append(b, 1)
		} else {
			b = append(b, 0)
		}
	}
	text(a.SiteAt)
	text(a.Choice.Label)
	s := &a.State
	for _, x := range []float64{s.HourOfWeek, float64(s.Spares), s.SpareIn, s.TechnicianIn, s.DriveIn, s.Scrubbed} {
		number(x)
	}
	for i := range s.Drives {
		d := &s.Drives[i]
		flag(d.Down)
		flag(d.Rebuilding)
		for _, x := range []float64{d.Age, d.DownFor, d.Rebuilt, d.RebuiltFor, float64(d.Defects)} {
			number(x)
		}
	}
	return string(b)
}

// seedOf returns the seed of what goes by a key.
func seedOf(seed uint64, key string) uint64 {
	sum := sha256.Sum256(append(binary.BigEndian.AppendUint64(nil, seed), key...))
	return binary.BigEndian.Uint64(sum[:])
}
