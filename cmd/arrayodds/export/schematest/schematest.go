// Package schematest holds JSON against its schema, for the tests of the packages that
// write some. [Check] is what a user does who has the schema; [CheckExactly] says in
// addition that the schema names every key. [Noticed] tries whether the schema would
// notice a key that goes or changes its type.
package schematest

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"
	"sync"

	"arrayodds/cmd/arrayodds/export/schema"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// Check returns an error if JSON is not what the schema says of this kind of file, such as
// compare; of any kind if it is empty.
func Check(kind string, text []byte) error { return check(asWritten(), kind, text) }

// CheckExactly is as [Check], and returns an error too if a key stands there that the
// schema does not name.
func CheckExactly(kind string, text []byte) error { return check(exact(), exactly+kind, text) }

// Kinds returns the kinds of files, sorted.
func Kinds() (kinds []string) {
	for _, one := range tree()["anyOf"].([]any) {
		kinds = append(kinds, strings.TrimPrefix(one.(map[string]any)["$ref"].(string), "#/$defs/"))
	}
	slices.Sort(kinds)
	return kinds
}

const (
	address = "urn:arrayodds:json:1"
	exactly = "exactly " // before a kind: with no other keys
)

var (
	asWritten = sync.OnceValue(func() *jsonschema.Compiler { return compiler(tree()) })
	exact     = sync.OnceValue(func() *jsonschema.Compiler {
		all := tree()
		defs := all["$defs"].(map[string]any)
		for _, one := range defs {
			nameAll(one.(map[string]any))
		}
		for _, kind := range Kinds() {
			defs[exactly+kind] = map[string]any{"$ref": "#/$defs/" + kind, "unevaluatedProperties": false}
		}
		return compiler(all)
	})
	compiling sync.Mutex // a compiler is for one at a time
)

// tree returns the schema anew.
func tree() map[string]any {
	all, err := jsonschema.UnmarshalJSON(strings.NewReader(schema.Text))
	if err != nil {
		panic("schema.json is no JSON: " + err.Error())
	}
	return all.(map[string]any)
}

func compiler(all map[string]any) *jsonschema.Compiler {
	c := jsonschema.NewCompiler()
	if err := c.AddResource(address, all); err != nil {
		panic("schema.json is no schema: " + err.Error())
	}
	return c
}

// nameAll lets every object below a schema have the keys alone that are named for it. It
// is said where the object stands, since what is referred to may be a part of it.
func nameAll(s map[string]any) {
	var places []any
	if properties, ok := s["properties"].(map[string]any); ok {
		places = slices.Collect(maps.Values(properties))
	}
	if items, ok := s["items"]; ok {
		places = append(places, items)
	}
	for _, place := range places {
		one := place.(map[string]any)
		nameAll(one)
		one["unevaluatedProperties"] = false
	}
}

func check(c *jsonschema.Compiler, kind string, text []byte) error {
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		return err
	}
	s, err := compiled(c, kind)
	if err != nil {
		return err
	}
	return s.Validate(value)
}

func compiled(c *jsonschema.Compiler, kind string) (*jsonschema.Schema, error) {
	place := address
	if kind != "" {
		place += "#/$defs/" + url.PathEscape(kind)
	}
	compiling.Lock()
	defer compiling.Unlock()
	return c.Compile(place)
}

// Noticed returns an error for each key of a file that the schema would not miss, or of
// which it would take anything. Of lists it looks at the first two items, and of objects
// of one kind at the first in which the key is not null.
func Noticed(kind string, text []byte) (unnoticed []error, keys int) {
	s, err := compiled(asWritten(), kind)
	if err != nil {
		return []error{err}, 0
	}
	var whole any
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	if err := d.Decode(&whole); err != nil {
		return []error{err}, 0
	}
	whole = shortened(whole)
	tried := map[string]bool{}
	var walk func(path string, value any)
	walk = func(path string, value any) {
		switch value := value.(type) {
		case []any:
			for _, item := range value {
				walk(path+"[]", item)
			}
		case map[string]any:
			for _, key := range slices.Sorted(maps.Keys(value)) {
				was, at := value[key], path+"."+key
				if again := fmt.Sprint(at, was == nil); !tried[again] {
					tried[again] = true
					delete(value, key)
					if s.Validate(whole) == nil {
						unnoticed = append(unnoticed, fmt.Errorf("%s%s may go", kind, at))
					}
					value[key] = []any{[]any{}} // which is what no key has
					if s.Validate(whole) == nil {
						unnoticed = append(unnoticed, fmt.Errorf("%s%s may be anything", kind, at))
					}
					value[key] = was
				}
				walk(at, was)
			}
		}
	}
	walk("", whole)
	return unnoticed, len(tried)
}

// shortened returns a value with at most two items in every list.
func shortened(value any) any {
	switch v := value.(type) {
	case []any:
		short := slices.Clone(v[:min(len(v), 2)])
		for i := range short {
			short[i] = shortened(short[i])
		}
		return short
	case map[string]any:
		for key := range v {
			v[key] = shortened(v[key])
		}
	}
	return value
}
