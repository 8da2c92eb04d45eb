package divide

import (
	"encoding/binary"
	"fmt"
	"hash"
	"hash/fnv"
	"math"
	"reflect"
)

// KeyOf returns a key of values: systems, seeds, numbers, words. Equal ones, whatever
// pointers lead to them, have the same key in every process of one version of the program;
// others have the same one with a chance of some 2^-128 (FNV-1a, as package hash/fnv has
// it).
func KeyOf(values ...any) string {
	h := fnv.New128a()
	for _, v := range values {
		hashValue(h, reflect.ValueOf(v))
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

func hashValue(h hash.Hash, v reflect.Value) {
	if !v.IsValid() { // a nil interface
		hashNumber(h, 0)
		return
	}
	fmt.Fprint(h, v.Type(), ";") // laws are told apart by their types
	switch v.Kind() {
	case reflect.Float64:
		hashNumber(h, math.Float64bits(v.Float()))
	case reflect.Int, reflect.Int64:
		hashNumber(h, uint64(v.Int()))
	case reflect.Uint64:
		hashNumber(h, v.Uint())
	case reflect.Bool:
		fmt.Fprint(h, v.Bool())
	case reflect.String:
		hashNumber(h, uint64(v.Len()))
		fmt.Fprint(h, v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			hashValue(h, v.Field(i))
		}
	case reflect.Pointer, reflect.Interface:
		hashValue(h, v.Elem())
	case reflect.Slice, reflect.Array:
		hashNumber(h, uint64(v.Len()))
		for i := range v.Len() {
			hashValue(h, v.Index(i))
		}
	default:
		panic("no key of a " + v.Type().String())
	}
}

func hashNumber(h hash.Hash, x uint64) {
	_, _ = h.Write(binary.LittleEndian.AppendUint64(nil, x)) // a hash takes all
}
