package divide

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"math"
	"reflect"
)

// Encode returns a value of structs, slices, pointers, words and numbers, all fields in
// their order, with a beginning that tells its type.
func Encode[T any](v T) []byte {
	return appendValue(beginning(reflect.TypeFor[T]()), reflect.ValueOf(v))
}

// Decode returns what Encode made of a value of that type. An error is an [UnfitError].
func Decode[T any](data []byte) (v T, err error) {
	begin := beginning(reflect.TypeFor[T]())
	if len(data) < len(begin) || string(data[:len(begin)]) != string(begin) {
		return v, unfitf("found other data; right would be a part that this version of the program made")
	}
	r := reader{data[len(begin):], nil}
	r.read(reflect.ValueOf(&v).Elem())
	if r.err == nil && len(r.data) > 0 {
		r.err = errors.New("found more than a part")
	}
	if r.err != nil {
		var none T
		return none, &UnfitError{r.err}
	}
	return v, nil
}

// beginning returns what data of a type begin with: the format, and a check of its fields.
func beginning(t reflect.Type) []byte {
	check := fnv.New64a()
	describe(check, t)
	return binary.LittleEndian.AppendUint64([]byte("arrayodds part 1 "), check.Sum64())
}

// describe writes the names and kinds of all that a value of a type holds.
func describe(w io.Writer, t reflect.Type) {
	fmt.Fprint(w, t.Kind(), ";")
	switch t.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			fmt.Fprint(w, t.Field(i).Name, ":")
			describe(w, t.Field(i).Type)
		}
	case reflect.Slice, reflect.Pointer:
		describe(w, t.Elem())
	}
}

func appendValue(to []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.Float64:
		return binary.LittleEndian.AppendUint64(to, math.Float64bits(v.Float()))
	case reflect.Int, reflect.Int64:
		return binary.AppendVarint(to, v.Int())
	case reflect.Bool:
		return appendBool(to, v.Bool())
	case reflect.String:
		return append(binary.AppendUvarint(to, uint64(v.Len())), v.String()...)
	case reflect.Struct:
		for i := range v.NumField() {
			to = appendValue(to, v.Field(i))
		}
		return to
	case reflect.Pointer:
		if to = appendBool(to, !v.IsNil()); v.IsNil() {
			return to
		}
		return appendValue(to, v.Elem())
	case reflect.Slice:
		if to = appendBool(to, !v.IsNil()); v.IsNil() {
			return to
		}
		to = binary.AppendUvarint(to, uint64(v.Len()))
		for i := range v.Len() {
			to = appendValue(to, v.Index(i))
		}
		return to
	}
	panic("no code for a " + v.Type().String())
}

func appendBool(to []byte, b bool) []byte {
	if b {
		return append(to, 1)
	}
	return append(to, 0)
}

// reader reads values off data. After an error it reads zero values.
type reader struct {
	data []byte
	err  error
}

var errShort = errors.New("found a part that ends too early")

func (r *reader) read(into reflect.Value) {
	switch into.Kind() {
	case reflect.Float64:
		if b := r.take(8); b != nil {
			into.SetFloat(math.Float64frombits(binary.LittleEndian.Uint64(b)))
		}
	case reflect.Int, reflect.Int64:
		n, length := binary.Varint(r.data)
		if length <= 0 || into.OverflowInt(n) {
			r.err = errShort
			return
		}
		r.data = r.data[length:]
		into.SetInt(n)
	case reflect.Bool:
		into.SetBool(r.bool())
	case reflect.String:
		into.SetString(string(r.take(r.length())))
	case reflect.Struct:
		for i := range into.NumField() {
			r.read(into.Field(i))
		}
	case reflect.Pointer:
		if r.bool() {
			into.Set(reflect.New(into.Type().Elem()))
			r.read(into.Elem())
		}
	case reflect.Slice:
		if !r.bool() {
			return
		}
		n := r.length()
		into.Set(reflect.MakeSlice(into.Type(), 0, 0))
		for range n { // each takes a byte at the least, so that memory is bounded by the data
			if r.err != nil {
				return
			}
			item := reflect.New(into.Type().Elem()).Elem()
			r.read(item)
			into.Set(reflect.Append(into, item))
		}
	}
}

// take returns the next n bytes; nil where there are not as many.
func (r *reader) take(n int) []byte {
	if r.err != nil || n > len(r.data) {
		r.err = errShort
		return nil
	}
	b := r.data[:n:n]
	r.data = r.data[n:]
	return b
}

func (r *reader) bool() bool {
	b := r.take(1)
	if b != nil && b[0] > 1 {
		r.err = errors.New("found what is no part")
	}
	return b != nil && b[0] == 1
}

// length returns the length of what follows, no more than there are bytes.
func (r *reader) length() int {
	n, length := binary.Uvarint(r.data)
	if length <= 0 || n > uint64(len(r.data)-length) {
		r.err = errShort
		return 0
	}
	r.data = r.data[length:]
	return int(n)
}
