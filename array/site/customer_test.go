package site

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"arrayodds/array"
)

// logos are pictures beside a site file, and what is none.
var logos = func() fstest.MapFS {
	var p, j bytes.Buffer
	if err := png.Encode(&p, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		panic(err)
	}
	if err := jpeg.Encode(&j, image.NewGray(image.Rect(0, 0, 40, 30)), nil); err != nil {
		panic(err)
	}
	return fstest.MapFS{
		"failures.csv":        {Data: []byte("installed,removed,failed,model\n2024-01-10,2026-08-01,no,a text\n2024-01-10,2025-03-04,yes,a text\n")},
		"logo.png":            {Data: p.Bytes()},
		"pictures/of png.jpg": {Data: p.Bytes()},
		"pictures/logo.jpeg":  {Data: j.Bytes()},
		"broad.png":           {Data: sided(p.Bytes(), 4097, 1)},
		"high.png":            {Data: sided(p.Bytes(), 1, 4097)},
		"square.png":          {Data: sided(p.Bytes(), 4096, 4096)},
		"cut.png":             {Data: p.Bytes()[:20]},
		"empty.png":           {Data: nil},
		"picture.gif":         {Data: []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00;")},
		"text.png":            {Data: []byte("<svg/>")},
		"full.png":            {Data: append(p.Bytes(), make([]byte, 256<<10-p.Len())...)},
		"over.png":            {Data: append(p.Bytes(), make([]byte, 256<<10-p.Len()+1)...)},
	}
}()

// sided is a PNG that says it has other sides. Its header is the first chunk: by
// ISO/IEC 15948 the length, "IHDR", width and height of four bytes each, five more
// bytes and the CRC of all but the length.
func sided(data []byte, width, height uint32) []byte {
	data = bytes.Clone(data)
	binary.BigEndian.PutUint32(data[16:], width)
	binary.BigEndian.PutUint32(data[20:], height)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func TestLogo(t *testing.T) {
	t.Parallel()
	file := func(name string) string { return small + "\n[document]\nlogo = \"" + name + "\"\n" }
	for name, want := range map[string]array.Logo{
		"logo.png":               {MediaType: "image/png", Width: 3, Height: 2},
		"./pictures/../logo.png": {MediaType: "image/png", Width: 3, Height: 2},
		"pictures/of png.jpg":    {MediaType: "image/png", Width: 3, Height: 2},
		"pictures/logo.jpeg":     {MediaType: "image/jpeg", Width: 40, Height: 30},
		"square.png":             {MediaType: "image/png", Width: 4096, Height: 4096},
		"full.png":               {MediaType: "image/png", Width: 3, Height: 2},
	} {
		f, err := Read(strings.NewReader(file(name)), "s.toml", Beside(logos))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got := f.Site.Document.Logo
		if in := logos[f.Logo]; in == nil || !bytes.Equal(got.Bytes, in.Data) || !got.Given() {
			t.Errorf("%s: %d bytes of %q", name, len(got.Bytes), f.Logo)
		}
		if got.Bytes = nil; got.MediaType != want.MediaType || got.Width != want.Width || got.Height != want.Height {
			t.Errorf("%s is %+v, want %+v", name, got, want)
		}
	}
	for name, want := range map[string]string{
		"broad.png":   `"broad.png", of 4097 by 1 pixels; right would be 1 to 4 096 pixels a side`,
		"high.png":    "of 1 by 4097 pixels",
		"cut.png":     "neither PNG nor JPEG",
		"empty.png":   "neither PNG nor JPEG",
		"picture.gif": "neither PNG nor JPEG",
		"text.png":    "neither PNG nor JPEG",
		"over.png":    `"over.png", a larger file; right would be at most 256 KiB`,
		"none.png":    "which is not there",
		"pictures":    "which is no file",
		"../logo.png": "which is not beside the site file",
		"/logo.png":   "which is not beside the site file",
		" ":           "a text",
	} {
		_, err := Read(strings.NewReader(file(name)), "s.toml", Beside(logos))
		if err == nil || !strings.Contains(err.Error(), want) || !strings.HasPrefix(err.Error(), "s.toml:14: document.logo: found ") {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
	}
	if _, err := Read(strings.NewReader(file("logo.png")), "s.toml"); err == nil || !strings.Contains(err.Error(), "cannot be opened from here") {
		t.Errorf("without a folder: %v", err)
	}
}

// TestLogoIsReadOnce: a file that is read again with other values has the same logo,
// though the folder is not there any more.
func TestLogoIsReadOnce(t *testing.T) {
	t.Parallel()
	files := fstest.MapFS{"logo.png": logos["logo.png"]}
	d, err := Open(strings.NewReader(small+"\n[document]\nlogo = \"logo.png\"\n"), "s.toml", Beside(files))
	if err != nil {
		t.Fatal(err)
	}
	delete(files, "logo.png")
	f, errs := d.ReadTree(d.Overlay().Root, Reading{Mute: true})
	if errs != nil {
		t.Fatal(errs)
	}
	if f.Logo != "logo.png" || !bytes.Equal(f.Site.Document.Logo.Bytes, logos["logo.png"].Data) {
		t.Errorf("%q, %d bytes", f.Logo, len(f.Site.Document.Logo.Bytes))
	}
}

// TestCustomerKeys: what the keys of currency, document and goal take, and what is
// said where they take it not.
func TestCustomerKeys(t *testing.T) {
	t.Parallel()
	read := func(top, tables string) (*File, error) {
		return Read(strings.NewReader(top+"\n"+small+"\n"+tables), "s.toml")
	}
	f, err := read("", "")
	if err != nil {
		t.Fatal(err)
	}
	if s := f.Site; s.Currency != "" || !math.IsNaN(s.EnergyPrice) || s.Document.Logo.Given() || !s.Document.ValidUntil.IsZero() || s.Goal != nil || f.Logo != "" {
		t.Errorf("without the keys there is %+v", s)
	}
	f, err = read("currency = \" kr. \"\nenergy_price = 0", "[document]\nvalid_until = 2027-03-31\n[goal]\nloss_chance = 1e-5")
	if err != nil {
		t.Fatal(err)
	}
	if s := f.Site; s.Currency != "kr." || s.EnergyPrice != 0 || s.Document.ValidUntil != time.Date(2027, 3, 31, 0, 0, 0, 0, time.UTC) || *s.Goal != (array.Goal{LossChance: 1e-5}) {
		t.Errorf("read %+v %+v", s, s.Goal)
	}
	for _, a := range f.Assumptions {
		if strings.HasPrefix(a.Path, "document") {
			t.Errorf("%s is listed among the assumptions", a.Path)
		}
	}
	for _, c := range []struct{ top, tables, want string }{
		{`currency = "EUR 2024"`, "", `s.toml:1: currency: found "EUR 2024"; right would be 1 to 8 characters without digits, such as "EUR"`},
		{`currency = "Mark banco"`, "", `found "Mark banco"; right would be 1 to 8`},
		{`currency = ""`, "", `found ""; right would be a text`},
		{`currency = "a\tb"`, "", "without control characters"},
		{`currency = 978`, "", "found 978; right would be a text in quotes"},
		{`currency = { low = "EUR", likely = "EUR", high = "USD" }`, "", "it says nothing of the site itself"},
		{`energy_price = "0.30"`, "", `found "0.30", a text; right would be a number, 0 to 1 000 000, without quotes`},
		{`energy_price = -0.1`, "", "found -0.1"},
		{"", "[document]\nvalid_until = \"2027-03-31\"", `s.toml:15: document.valid_until: found "2027-03-31", a text; right would be a day, such as 2027-03-31, without quotes`},
		{"", "[document]\nvalid_until = 2027-03-31T10:00:00", "found 2027-03-31T10:00:00; right would be a day, such as 2027-03-31"},
		{"", "[document]\nvalid_until = 10:00:00", "right would be a day"},
		{"", "[document]\nvalid_until = 2027", "found 2027; right would be a day"},
		{"", "[document]\ncustomer = \"a\\nb\"", "document.customer: found \"a\\nb\"; right would be a text without control characters"},
		{"", "[document]\nreference = \"" + strings.Repeat("x", 201) + "\"", "right would be at most 200 characters"},
		{"", "[document]\nprepared = \"x\"", `(did you mean "prepared_by"?)`},
		{"", "[goal]\nbudget = 5", "s.toml:14: goal.loss_chance: found nothing; right would be a chance in quotes, such as \"1 in 10 000\""},
		{"", "[goal]\nloss_chance = 0", "goal.loss_chance: found 0; right would be 1e-15 to 0.999"},
		{"", "[goal]\nloss_chance = \"1 in 1\"", "found \"1 in 1\", which is no chance between 0 and 1"},
		{"", "[goal]\nloss_chance = { low = 0.01, likely = 0.02, high = 0.03 }", "it says nothing of the site itself"},
		{"", "[goal]\nloss_chance = 0.1\nbudget = 0", "goal.budget: found 0"},
		{"", "[goal]\nloss_chance = 0.1\nmissing_clip = \"none\"", "goal.missing_clip: found"},
	} {
		if _, err := read(c.top, c.tables); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s%s: %v\nwant %s", c.top, c.tables, err, c.want)
		}
	}
}
