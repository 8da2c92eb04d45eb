package desk_test

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/desk"
	"arrayodds/cmd/desk/session"
)

// What the desk saves of every question, and with make test of a comparison, is, in every format, what the same requests give
// without a page, which package session holds against the commands: templates are linked
// in another way there, and the processor is another.
func TestSavedFiles(t *testing.T) {
	text := small(t)
	tab := lent(t, desk.Given{Name: "site.toml", Text: scheduled, Files: map[string][]byte{"plan.csv": []byte(plan)}}, 1280)
	await(t, tab)
	record, err := os.ReadFile("../testdata/readme/fleet.csv")
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range []struct {
		op    string
		args  map[string]any
		files map[string][]byte
	}{
		{"compare", nil, nil},
		{"size", map[string]any{"spares": 1}, nil},
		{"choose", nil, nil},
		{"vary", map[string]any{"over": "care.notice=1 h..24 h", "points": 4}, nil},
		{"rank", nil, nil},
		{"replay", map[string]any{"choice": "RAID 5, 6 x 18 TB", "lives": 2, "onlyLosses": true}, nil},
		{"lesson", map[string]any{"questions": []string{"scrub"}}, nil},
		{"plan", map[string]any{"choice": "RAID 5, 6 x 18 TB"}, nil},
		{"now", map[string]any{"choice": "RAID 5, 6 x 18 TB", "drill": true}, nil},
		{"fit", map[string]any{"name": "fleet.csv", "until": "2026-06-30"}, map[string][]byte{"record": record}},
	} {
		if !thorough.Part(i, 10) {
			continue
		}
		args := map[string]any{"text": text}
		for key, value := range c.args {
			args[key] = value
		}
		asked, err := json.Marshal(args)
		if err != nil {
			t.Fatal(err)
		}
		s := session.New()
		if _, _, err := s.Handle(context.Background(), c.op, asked, c.files, nil); err != nil {
			t.Fatal(err)
		}
		want := ""
		for _, format := range formatsOf(t, s, c.op) {
			_, out, err := s.Handle(context.Background(), "output", fmt.Appendf(nil, `{"of": %q, "format": %q}`, c.op, format), nil, nil)
			if err != nil {
				t.Fatal(err)
			}
			want += fmt.Sprintf("%s %x\n", format, sha256.Sum256(out["file"]))
		}
		got := tab.Await(fmt.Sprintf(`(async () => {
			const files = {};
			if (%[1]q === "fit") files.record = new TextEncoder().encode(%[3]q);
			const { answer, engine } = await engines.pool.do("test", %[1]q, %[2]s, files);
			if (answer.errors && answer.errors.length) return JSON.stringify(answer.errors);
			let all = "";
			for (const format of (await engine.ask("formats", { of: %[1]q })).answer.formats) {
				const { out } = await engine.ask("output", { of: %[1]q, format });
				const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", out.file));
				all += format + " " + [...sum].map((byte) => byte.toString(16).padStart(2, "0")).join("") + "\n";
			}
			return all;
		})()`, c.op, asked, c.files["record"]))
		if got != want {
			t.Errorf("%s gives\n%swithout a page\n%s", c.op, got, want)
		}
	}
}

func formatsOf(t *testing.T, s *session.Session, op string) []string {
	t.Helper()
	answer, _, err := s.Handle(context.Background(), "formats", fmt.Appendf(nil, `{"of": %q}`, op), nil, nil)
	var got struct{ Formats []string }
	if err == nil {
		err = json.Unmarshal(answer, &got)
	}
	if err != nil || len(got.Formats) == 0 {
		t.Fatal(string(answer), err)
	}
	return got.Formats
}
