package model

import (
	"encoding/binary"
	"reflect"
	"runtime"
	"testing"
	"unsafe"
)

// Every field of sums that a block adds to comes back: each number gets a value of its
// own, by reflection, so that a field that is added later and is not coded is found.
func TestSumsComeBack(t *testing.T) {
	t.Parallel()
	sys := &System{Horizon: 2.5 * curveStep, StepHours: curveStep}
	s := NewSums(sys)
	s.Failures.grow(3)
	s.PerLoss.grow(2)
	next := 0.0
	ofARun := map[string]bool{"MostWork": true, "Stop": true, "FiguresOnly": true, "Plain": true, "stepHours": true, "trial": true, "batch": true, "perSwap": true, "lost": true}
	for i := range reflect.TypeFor[Sums]().NumField() {
		f := reflect.TypeFor[Sums]().Field(i)
		if !ofARun[f.Name] {
			number(reflect.ValueOf(s).Elem().Field(i), &next)
		}
	}
	data, _ := s.AppendBinary([]byte("before"))
	got := NewSums(sys)
	if err := got.UnmarshalBinary(data[len("before"):]); err != nil {
		t.Fatal(err)
	}
	got.Stop = s.Stop
	got.trial.sums, s.trial.sums = nil, nil
	if !reflect.DeepEqual(got, s) {
		t.Errorf("%+v\n%+v", got, s)
	}
	for _, n := range []int{len("before"), len("before") + 1, len(data) / 2, len(data) - 1} {
		if err := NewSums(sys).UnmarshalBinary(data[len("before"):n]); err == nil {
			t.Errorf("%d bytes were taken for %d", n, len(data))
		}
	}
	if err := NewSums(&System{Horizon: 9 * curveStep}).UnmarshalBinary(data[len("before"):]); err == nil {
		t.Error("sums of another system were taken")
	}
}

// number gives every number beneath a value the next one.
func number(v reflect.Value, next *float64) {
	v = reflect.NewAt(v.Type(), unsafe.Pointer(v.UnsafeAddr())).Elem()
	switch v.Kind() {
	case reflect.Float64:
		*next++
		v.SetFloat(*next)
	case reflect.Int64:
		*next++
		v.SetInt(int64(*next))
	case reflect.Struct:
		for i := range v.NumField() {
			number(v.Field(i), next)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			number(v.Index(i), next)
		}
	}
}

// Data that say they have many bins, and do not, take no memory for them.
func TestBinsThatAreNotThere(t *testing.T) {
	sys := &System{Horizon: 2.5 * curveStep}
	const size = 4 << 20
	data := binary.AppendVarint(nil, 1)
	for i, n := range NewSums(sys).lengths() {
		if i >= 2 {
			n = size
		}
		data = binary.AppendUvarint(data, uint64(n))
	}
	data = append(data, make([]byte, size+100)...)
	into := NewSums(sys)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	err := into.UnmarshalBinary(data)
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; err == nil || took > size {
		t.Errorf("%v, and %d bytes for %d", err, took, len(data))
	}
}
