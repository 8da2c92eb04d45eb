package session

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"
)

// What a page shows first is what the engine in it answers and tells first.
func TestNewFirst(t *testing.T) {
	t.Parallel()
	text := places(t)[0].text
	first, err := NewFirst(t.Context(), text, nil)
	if err != nil {
		t.Fatal(err)
	}
	args := func(of map[string]any) []byte {
		of["text"] = text
		data, err := json.Marshal(of)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	read, _, err := New().Handle(t.Context(), "read", args(map[string]any{}), nil, nil)
	if err != nil || !bytes.Equal(read, first.Read) {
		t.Errorf("read differs from what the engine answers (%v)", err)
	}
	var sizes struct{ Sizes []json.RawMessage }
	if err := json.Unmarshal(read, &sizes); err != nil {
		t.Fatal(err)
	}
	if len(first.Figures) != len(sizes.Sizes) || len(first.Figures) < 2 {
		t.Fatalf("%d figures for %d choices", len(first.Figures), len(sizes.Sizes))
	}
	var told []string
	if _, _, err := New().Handle(t.Context(), "simulate", args(map[string]any{"choice": 1}), nil, func(tell []byte) { told = append(told, string(tell)) }); err != nil {
		t.Fatal(err)
	}
	if len(told) == 0 || told[0] != string(first.Figures[1]) {
		t.Errorf("the first figures are %s, and the engine tells first of all %q", first.Figures[1], told)
	}

	wrong, err := NewFirst(t.Context(), "name = 3", nil)
	if err != nil || len(wrong.Figures) > 0 || !bytes.Contains(wrong.Read, []byte("errors")) {
		t.Errorf("of a wrong site: %v, %+v", err, wrong)
	}
	ended, end := context.WithCancel(t.Context())
	end()
	if _, err := NewFirst(ended, text, nil); err == nil {
		t.Error("nobody wanted it, and it was worked out")
	}
}
