package parts

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"

	"pgregory.net/rapid"
)

// fill gives every field of a value something: numbers that are hard to keep among
// others, slices and pointers that are nil, empty or neither.
func fill(t *rapid.T, v reflect.Value) {
	hard := []float64{0, math.Copysign(0, -1), 1, -1.5, 1e-320, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN(), math.Float64frombits(0x7ff8000000000123)}
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(rapid.OneOf(rapid.SampledFrom(hard), rapid.Float64()).Draw(t, "number"))
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(rapid.Int().Draw(t, "whole number")))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "switch"))
	case reflect.String:
		v.SetString(rapid.String().Draw(t, "words"))
	case reflect.Struct:
		for i := range v.NumField() {
			fill(t, v.Field(i))
		}
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "there") {
			v.Set(reflect.New(v.Type().Elem()))
			fill(t, v.Elem())
		}
	case reflect.Slice:
		if n := rapid.IntRange(-1, 3).Draw(t, "length"); n >= 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				fill(t, v.Index(i))
			}
		}
	default:
		t.Fatalf("a result holds a %v", v.Type())
	}
}

// equal reports whether two values are the same bit by bit, nil only like nil. It is not
// written as the code is: it goes down both values at once.
func equal(a, b reflect.Value) bool {
	switch a.Kind() {
	case reflect.Float64:
		return math.Float64bits(a.Float()) == math.Float64bits(b.Float())
	case reflect.Struct:
		for i := range a.NumField() {
			if !equal(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Pointer:
		return a.IsNil() == b.IsNil() && (a.IsNil() || equal(a.Elem(), b.Elem()))
	case reflect.Slice:
		if a.IsNil() != b.IsNil() || a.Len() != b.Len() {
			return false
		}
		for i := range a.Len() {
			if !equal(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return true
	}
	return a.Interface() == b.Interface()
}

func TestPartsComeBackBitByBit(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var r result
		fill(t, reflect.ValueOf(&r).Elem())
		data := EncodeResult(r.Result, r.Busy)
		got, busy, err := DecodeResult(data)
		if again := (result{got, busy}); err != nil || !equal(reflect.ValueOf(r), reflect.ValueOf(again)) {
			t.Fatalf("%v\n%+v\n%+v", err, r, again)
		}
		var p study.Replicate
		fill(t, reflect.ValueOf(&p).Elem())
		if got, err := DecodeReplicate(EncodeReplicate(p)); err != nil || !equal(reflect.ValueOf(p), reflect.ValueOf(got)) {
			t.Fatalf("%v\n%+v\n%+v", err, p, got)
		}
		cut := rapid.IntRange(0, len(data)-1).Draw(t, "cut")
		if _, _, err := DecodeResult(data[:cut]); err == nil {
			t.Fatalf("of %d bytes %d were read as all", len(data), cut)
		}
		changed := slices.Clone(data)
		changed[rapid.IntRange(0, len(data)-1).Draw(t, "changed")] ^= byte(rapid.IntRange(1, 255).Draw(t, "by"))
		DecodeResult(changed) // whatever comes of it, it comes to an end
	})
}

// Of the same by hand: a chance of exactly 0, which is not "none".
func TestZeroIsNotNil(t *testing.T) {
	t.Parallel()
	zero, minus := 0.0, math.Copysign(0, -1)
	got, busy, err := DecodeResult(EncodeResult(sim.Result{Exact: &zero, Textbook: &minus}, nil))
	if err != nil || busy != nil || got.Exact == nil || *got.Exact != 0 || got.Textbook == nil || !math.Signbit(*got.Textbook) || got.Record != nil {
		t.Errorf("%+v, %v, %v", got, busy, err)
	}
}

func TestWhatIsNoPart(t *testing.T) {
	t.Parallel()
	good := EncodeReplicate(study.Replicate{})
	for name, data := range map[string][]byte{
		"nothing": nil, "words": []byte("site.toml"), "another part": EncodeResult(sim.Result{}, &engine.BusyError{Choice: "x"}),
		"more": append(slices.Clone(good), 0), "less": good[:len(good)-1],
	} {
		if _, err := DecodeReplicate(data); err == nil || strings.Contains(err.Error(), "%!") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
