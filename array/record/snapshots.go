package record

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"arrayodds/array"
	"arrayodds/array/unit"
)

var snapshots = form{name: "daily snapshots", needed: 5,
	columns: []string{"date", "serial_number", "model", "capacity_bytes", "failure", "smart_9_raw"},
	reader: func(o Options) taker {
		return &snapshotsReader{until: untilOf(o), byKey: map[string]uint32{}, last: -never}
	}}

const (
	snapDate = iota
	snapSerial
	snapModel
	snapCapacity
	snapFailure
	snapHours
)

// longestSerial bounds what is kept of a drive, in bytes.
const longestSerial = 64

// track is what is kept of one drive. Days are those since 1970.
type track struct {
	fleet       int32
	first, last int32
	failed      int32 // never: it did not
	aged        int32 // the earliest day with a reading of its hours; never: none
	hours       int32 // the reading
}

type snapshotsReader struct {
	fleets
	until  int32
	tracks []track
	byKey  map[string]uint32 // label and serial number; places in tracks
	key    []byte
	last   int32 // day of the record
	odd    []int // by fleet, readings passed over
	date   []byte
	day    int32 // of date
}

func (r *snapshotsReader) row(s *sheet) {
	date := s.cells[snapDate]
	if !bytes.Equal(date, r.date) || len(date) == 0 { // most rows are of the day of the row above
		d, ok := s.date(date)
		if !ok || d.open() {
			s.wrong(snapDate, dateRight)
			return
		}
		r.date, r.day = append(r.date[:0], date...), int32(d)
	}
	if r.day > r.until {
		return
	}
	failed, ok := truth(s.cells[snapFailure])
	if !ok {
		s.wrong(snapFailure, "1 on the day of the failure, else 0")
		return
	}
	fleet, ok := r.fleet(s)
	if !ok {
		return
	}
	t := r.track(s, fleet)
	if t == nil {
		return
	}
	r.last = max(r.last, r.day)
	r.seen(s, t, failed)
	r.reading(s, t)
}

// fleet returns the place of the row's label: its model or, where that is blank, its
// capacity.
func (r *snapshotsReader) fleet(s *sheet) (int32, bool) {
	model := s.cells[snapModel]
	if i, ok := r.byLabel[string(model)]; ok && len(model) > 0 {
		return int32(i), true
	}
	label, ok := s.label(snapModel, longestName)
	if !ok {
		return 0, false
	}
	if label == "" {
		capacity, ok := s.number(s.cells[snapCapacity])
		if !ok || capacity < 1 {
			s.wrong(snapCapacity, "bytes, above 0, as there is no model")
			return 0, false
		}
		label = unit.FormatSize(capacity)
	}
	if r.of(s, label) == nil {
		return 0, false
	}
	return int32(r.byLabel[label]), true
}

// track returns what is known of the row's drive, begun where it is new.
func (r *snapshotsReader) track(s *sheet, fleet int32) *track {
	serial := s.cells[snapSerial]
	if len(serial) == 0 || len(serial) > longestSerial {
		s.wrong(snapSerial, fmt.Sprintf("a serial number of at most %d bytes", longestSerial))
		return nil
	}
	r.key = append(binary.LittleEndian.AppendUint32(r.key[:0], uint32(fleet)), serial...)
	if i, ok := r.byKey[string(r.key)]; ok {
		return &r.tracks[i]
	}
	if !r.room(s) {
		return nil
	}
	r.byKey[string(r.key)] = uint32(len(r.tracks))
	r.tracks = append(r.tracks, track{fleet: fleet, first: r.day, last: -never, failed: never, aged: never})
	return &r.tracks[len(r.tracks)-1]
}

// seen adds a day. Rows said twice change nothing, but they must agree: that is
// checked for the last day that the drive was seen and for that of its failure.
func (r *snapshotsReader) seen(s *sheet, t *track, failed bool) {
	if failed && r.day == t.last && t.failed != r.day {
		s.wrong(snapFailure, "what a row above says of this drive and day: 0")
		return
	}
	if !failed && r.day == t.failed {
		s.wrong(snapFailure, "what a row above says of this drive and day: 1")
		return
	}
	t.first, t.last = min(t.first, r.day), max(t.last, r.day)
	if failed {
		t.failed = min(t.failed, r.day)
	}
}

// reading takes the drive's own count of its hours from the earliest day that
// has one.
func (r *snapshotsReader) reading(s *sheet, t *track) {
	cell := s.cells[snapHours]
	if len(cell) == 0 || r.day >= t.aged {
		return
	}
	hours, ok := s.number(cell)
	if !ok {
		s.wrong(snapHours, "hours, 0 or more, or blank")
		return
	}
	if hours > mostHours {
		for len(r.odd) < len(r.list) {
			r.odd = append(r.odd, 0)
		}
		r.odd[t.fleet]++
		return
	}
	t.aged, t.hours = r.day, int32(hours)
}

// sums over the drives of a fleet, for its notes.
type presumed struct{ drives, ageless, vanished, again int }

func (r *snapshotsReader) record(*Errors) Record {
	counts := make([]int, len(r.list))
	for _, t := range r.tracks {
		counts[t.fleet]++
	}
	for i, n := range counts {
		r.list[i].Drives = make([]array.Observed, 0, n)
	}
	notes := make([]presumed, len(r.list))
	for _, t := range r.tracks {
		n := &notes[t.fleet]
		n.drives++
		entered := 0.0
		if t.aged == never {
			n.ageless++
		} else {
			entered = max(0, float64(t.hours)-24*float64(t.aged-t.first+1))
		}
		switch {
		case t.failed == never && t.last < r.last:
			n.vanished++
		case t.failed < t.last:
			n.again++
		}
		end := min(t.failed, t.last)
		f := &r.list[t.fleet]
		f.Drives = append(f.Drives, array.Observed{Entered: entered, Hours: entered + 24*float64(end-t.first+1), Failed: t.failed != never})
	}
	for i, n := range notes {
		r.list[i].Notes = r.notes(n, i)
	}
	return Record{Fleets: r.list}
}

func (r *snapshotsReader) notes(n presumed, fleet int) []string {
	var out []string
	say := func(count int, format string) {
		if count > 0 {
			out = append(out, fmt.Sprintf(format, count))
		}
	}
	say(n.ageless, fmt.Sprintf("Without a reading of smart_9_raw, so taken for new when first seen: %%d of %d drives. Those that were not are older than is counted.", n.drives))
	say(n.vanished, "Seen no more before the record ends, without a failure, and taken as running to their last day: %d drives. Where they were taken out because they were failing, the rate is higher than is found.")
	say(n.again, "Seen again after their failure, which is left out: %d drives.")
	if fleet < len(r.odd) {
		say(r.odd[fleet], "Readings of more than 50 years passed over: %d.")
	}
	return out
}
