package site

import (
	"errors"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"

	"arrayodds/array"
	"arrayodds/array/schedule/workbook"
	"arrayodds/array/site/rewrite"
)

// scheduled is the small file with its cameras in a spreadsheet.
func scheduled(name string) string { return fmt.Sprintf("cameras = %q\n", name) + small }

const rows = `Location;IP address;Count;Bitrate (Mbit/s);Hours per day;Activity (%);Retention (days);Resolution;fps;Codec
Ramps;10.0.0.1;24;6;24;100;30;1080p;25;H.264
Halls;10.0.0.2;18;4,5;18;70;30;;;
Subtotal;;42;;;;;;;
;;;;;;;;;
Car park;10.0.0.3;14;;;;2 w;2560 x 1440;12,5;HEVC
`

// packed is the rows as XLSX, numbers as numbers.
func packed(t *testing.T, text string) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetSheetName("Sheet1", "Cameras"); err != nil {
		t.Fatal(err)
	}
	for i, line := range strings.Split(strings.TrimSpace(text), "\n") {
		for j, s := range strings.Split(line, ";") {
			var v any = s
			var x float64
			if n, err := fmt.Sscanf(strings.Replace(s, ",", ".", 1)+" ", "%g ", &x); n == 1 && err == nil && !strings.ContainsAny(s, " wpx") && strings.Count(s, ".") == 0 {
				v = x
			}
			cell, err := excelize.CoordinatesToCellName(j+1, i+1)
			if err != nil {
				t.Fatal(err)
			}
			if err := f.SetCellValue("Cameras", cell, v); err != nil {
				t.Fatal(err)
			}
		}
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestScheduleIsLikeTables(t *testing.T) {
	t.Parallel()
	tables := small + `
[[cameras]]
label = "Ramps"
count = 24
bitrate = "6 Mbit/s"
hours_per_day = 24
activity = 1
retention = "30 d"
[[cameras]]
label = "Halls"
count = 18
bitrate = "4.5 Mbit/s"
hours_per_day = 18
activity = 0.7
retention = "30 d"
[[cameras]]
label = "Car park"
count = 14
width = 2560
height = 1440
frames_per_second = 12.5
codec = "H.265"
retention = "14 d"
`
	want, err := Read(strings.NewReader(tables), "")
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"s.csv": {Data: []byte(rows)}, "plans/s.xlsx": {Data: packed(t, rows)}}
	for _, name := range []string{"s.csv", "plans/s.xlsx", "./plans/../s.csv"} {
		f, err := Read(strings.NewReader(scheduled(name)), "", Beside(files), Workbooks(workbook.Read))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(f.Site.Cameras, want.Site.Cameras) {
			t.Errorf("%s: %+v\nwant\n%+v", name, f.Site.Cameras, want.Site.Cameras)
		}
		listed := map[string]string{}
		order := ""
		for _, a := range f.Assumptions {
			if strings.HasPrefix(a.Path, "cameras") {
				listed[a.Path] += a.Text + "|"
				order += a.Path + " "
			}
		}
		for path, text := range map[string]string{
			"cameras": `"Subtotal", a total: not read|`, "cameras.Ramps.count": "24|", "cameras.Halls.bitrate": "4.5 Mbit/s|",
			"cameras.Car park.bitrate": "an estimate: 2.3 Mbit/s, 1.15 Mbit/s to 4.61 Mbit/s", "cameras.Car park.activity": "1|",
			"cameras.Ramps.codec": "not used, since the bit rate is given",
		} {
			if !strings.Contains(listed[path], text) {
				t.Errorf("%s: %s is listed as %q", name, path, listed[path])
			}
		}
		if !strings.Contains(listed["cameras"], `columns that are not read: "IP address"`) {
			t.Errorf("%s: %q", name, listed["cameras"])
		}
		if !(strings.Index(order, "Ramps.count") < strings.Index(order, "Halls.label") && strings.Index(order, "Halls.retention") < strings.Index(order, "Car park.label")) {
			t.Errorf("%s: in the order %s", name, order)
		}
		// Written out it is the same again, and needs no schedule.
		out := rewrite.WithChoices([]byte(scheduled(name)), f.Site.Cameras, f.Site.Choices)
		g, err := Read(strings.NewReader(string(out)), "")
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		for i, c := range f.Site.Cameras {
			d := g.Site.Cameras[i]
			if c.Label != d.Label || c.Needed() < 0.999999999*d.Needed() || c.Needed() > 1.000000001*d.Needed() || c.Picture.Codec != d.Picture.Codec {
				t.Errorf("%+v is written out as %+v", c, d)
			}
		}
	}
}

// The place is that of the cell; all errors come at once, in its order.
func TestScheduleErrors(t *testing.T) {
	t.Parallel()
	const wrong = `Camera schedule;;;;;;;
Location;Count;Bitrate;Hours per day;Activity;Retention (days);Fps;Codec
Ramps;24;6;24;100;30;;
Halls;1.5;4 MB/s;25 h;70 %;;;
Ramps;many;"1,500 kbit/s";;;1 month;;
Car park;14;;;;30;12;H.266
Yard;;6 Mbit/s;;;30;;
`
	site := strings.Replace(scheduled("wrong.csv"), `"5 y"`, `"5 z"`, 1)
	files := fstest.MapFS{"wrong.csv": {Data: []byte(wrong)}, "wrong.xlsx": {Data: packed(t, wrong)}}
	_, err := Read(strings.NewReader(site), "site.toml", Beside(files))
	if err == nil {
		t.Fatal("it was accepted")
	}
	const golden = "testdata/schedule-errors.golden"
	got := err.Error() + "\n"
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want := readText(t, golden); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	_, err = Read(strings.NewReader(scheduled("wrong.xlsx")), "site.toml", Beside(files), Workbooks(workbook.Read))
	if err == nil || !strings.Contains(err.Error(), `wrong.xlsx, sheet "Cameras", cell C4: cameras.Halls.bitrate: found "4 MB/s"`) {
		t.Errorf("%v", err)
	}
}

func TestScheduleThatCannotBeOpened(t *testing.T) {
	t.Parallel()
	files := fstest.MapFS{"s.csv": {Data: []byte(rows)}, "folder/x.csv": {}, "near.csv": {Data: []byte("label;camera;count;bitrates (kbit/s);retention d\na;1;1;5;3\n")},
		"many.csv": {Data: []byte("label,count,bitrate,retention\n" + strings.Repeat(",1,6 Mbit/s,3 d\n", 1001))}}
	for name, says := range map[string]string{
		"gone.csv":         "which is not there",
		"../s.csv":         "which is not beside the site file",
		"/etc/passwd.csv":  "which is not beside the site file",
		`folder\x.csv`:     "which is not beside the site file",
		"c:/x.csv":         "which is not beside the site file",
		"folder":           "which is no file",
		"":                 "right would be a text",
		"s.txt":            "which is not there",
		"near.csv":         `near.csv, cell D1: found the heading "bitrates (kbit/s)"`,
		"many.csv":         "1001 groups",
		"folder/x.csv":     "folder/x.csv: found no row of headings",
		"folder/../gone.c": "which is not there",
	} {
		_, err := Read(strings.NewReader(scheduled(name)), "site.toml", Beside(files))
		var errs Errors
		if !errors.As(err, &errs) || len(errs) != 1 || errs[0].Line != 1 || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Read(strings.NewReader(scheduled("s.csv")), "site.toml"); err == nil || !strings.Contains(err.Error(), "cannot be opened from here") {
		t.Errorf("%v", err)
	}
}

// TestEstimatedBitRate: what a picture needs, and what it says.
func TestEstimatedBitRate(t *testing.T) {
	t.Parallel()
	camera := func(lines string) string { return small + "[[cameras]]\ncount = 2\nretention = \"30 d\"\n" + lines }
	for resolution, pixels := range map[string]float64{"1920x1080": 2073600, "1080p": 2073600, "4 MP": 4e6, "2592 × 1944": 5038848, "3840*2160 px": 8294400,
		// Recommendations ITU-R BT.2020 and BT.709, ITU-T H.263; QHD is common practice, no source.
		"4K": 3840 * 2160, "4k UHD": 3840 * 2160, "8K UHD": 7680 * 4320, "UHD": 3840 * 2160, "Full HD": 1920 * 1080, "Full-HD": 1920 * 1080, "HD": 1280 * 720,
		"QHD": 2560 * 1440, "4CIF": 704 * 576, "5 MP": 5e6, "5MP (2592 x 1944)": 2592 * 1944, "1080p / 2 MP": 1920 * 1080, "4K UHD 3840x2160": 3840 * 2160,
		"2 MP Full HD": 0, "4K (1920x1080)": 0, "8 MP, 1080p": 0, "4K !": 0, "()": 0,
	} {
		f, err := Read(strings.NewReader(camera("resolution = \""+resolution+"\"\nframes_per_second = 10\ncodec = \"MJPEG\"\n")), "")
		if pixels == 0 {
			if err == nil || !strings.Contains(err.Error(), "cameras.Cameras 1.resolution: found ") {
				t.Errorf("%s: %v", resolution, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", resolution, err)
			continue
		}
		if c := f.Site.Cameras[0]; c.Picture != (array.Picture{Pixels: pixels, FramesPerSecond: 10, Codec: array.MJPEG}) || c.BitRate != pixels*10 {
			t.Errorf("%s: %+v", resolution, c)
		}
	}
	const whole = "resolution = \"1080p\"\nframes_per_second = 25\ncodec = \"H.264\"\n"
	for change, says := range map[[2]string]string{
		{`"1080p"`, `"2K"`}:  `cameras.Cameras 1.resolution: found "2K"`,
		{`"1080p"`, `1080`}:  `cameras.Cameras 1.resolution: found 1080`,
		{`"1080p"`, `"0x0"`}: `cameras.Cameras 1.resolution: found "0x0"`,
		{"1080p\"\nframes_per_second = 25", "30000x30000\"\nframes_per_second = 200"}: `an estimated bit rate of`,
		{`"H.264"`, `"H.263"`}:                     `did you mean "H.264"`,
		{"= 25", "= 0"}:                            `frames_per_second: found 0`,
		{"frames_per_second = 25\n", ""}:           `frames_per_second: found nothing`,
		{"codec = \"H.264\"\n", ""}:                `codec: found nothing`,
		{"resolution = \"1080p\"", "width = 1920"}: `height: found nothing`,
		{"codec", "width = 1920\ncodec"}:           `width: found it beside resolution`,
		{whole, ""}:                                `bitrate: found nothing; right would be a bit rate in quotes, such as "6 Mbit/s" (1 kbit/s to 10 Gbit/s), or resolution, frames_per_second and codec`,
	} {
		_, err := Read(strings.NewReader(camera(strings.Replace(whole, change[0], change[1], 1))), "")
		if err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v", change, err)
		}
	}
}
