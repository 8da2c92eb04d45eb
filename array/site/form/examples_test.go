package form

import (
	"testing"
)

// site is a file with most ways of writing things.
const before = `# A site.

name = "A" # its name
service_life = "5 y"

# The yard.
[[cameras]]
label = "Yard"
count = 4   # for now
bitrate = "6 Mbit/s"
retention = "30 d"
#activity = 0.5

# Models.

[[drives]]
label = "8 TB"
capacity = "8 TB"
life = { afr = "1.5 %" } # a guess
transfer = "200 MB/s"

# The large one.
[[drives]]
label = "16 TB"
capacity = "16 TB"
transfer = "250 MB/s"
  [drives.life]
  mtbf = "1000000 h"

[[choices]]
label = "Two"
drive = "8 TB"
layout = "RAID 1"
drives = 2
[choices.care] # its own
response = "4 h"

[[choices]]
label = "Four"
drive = "8 TB"
layout = "RAID 5"
drives = 4

[recorder]
mains = { outages_per_year = 2, mean = "1 h" } # the grid
power.failures_per_year = 0.05
power.restore = "48 h"

[hazards.degraded_multiplier]
low = 1
likely = 1.5
high = 2

[[options]]
label = "Cheaper"
set = { "drives.8 TB.price" = 90, "drives.16 TB.price" = 200 }
`

// replaced is a part of the text that a change makes another.
type replaced struct{ from, to string }

// TestChanges: what each change makes of the file, by hand.
func TestChanges(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		Change
		want []replaced
	}{
		{"a text", Change{Set, "name", `B "the" \ best`}, []replaced{{`"A" #`, `"B \"the\" \\ best" #`}}},
		{"a quantity", Change{Set, "service_life", "7 y"}, []replaced{{`"5 y"`, `"7 y"`}}},
		{"a number", Change{Set, "cameras.0.count", "12"}, []replaced{{"= 4   #", "= 12   #"}}},
		{"digits in groups", Change{Set, "cameras.0.count", "1 200"}, []replaced{{"= 4   #", "= 1200   #"}}},
		{"what is no number", Change{Set, "cameras.0.count", "four\n[drives]"}, []replaced{{"= 4   #", `= "four\u000a[drives]"   #`}}},
		{"a share as a number", Change{Set, "cameras.0.activity", "0.5"}, []replaced{{"Mbit/s\"\n", "Mbit/s\"\nactivity = 0.5\n"}}},
		{"a share in per cent", Change{Set, "cameras.0.activity", "50 %"}, []replaced{{"Mbit/s\"\n", "Mbit/s\"\nactivity = \"50 %\"\n"}}},
		{"a key at the top, in order", Change{Set, "currency", "EUR"}, []replaced{{"\"5 y\"\n", "\"5 y\"\ncurrency = \"EUR\"\n"}}},
		{"a key of an inline table", Change{Set, "drives.0.life.afr", "2 %"}, []replaced{{`"1.5 %"`, `"2 %"`}}},
		{"a law as a whole", Change{Set, "drives.0.life", `{ mtbf = "1000000 h" }`}, []replaced{{`{ afr = "1.5 %" }`, `{ mtbf = "1000000 h" }`}}},
		{"a range", Change{Set, "drives.0.life.afr", `{ low = "1 %", likely = "2 %", high = "3 %" }`}, []replaced{{`"1.5 %"`, `{ low = "1 %", likely = "2 %", high = "3 %" }`}}},
		{"a law that is no TOML", Change{Set, "drives.0.life", `{ mtbf = 3 h`}, []replaced{{`{ afr = "1.5 %" }`, `"{ mtbf = 3 h"`}}},
		{"a table with a header as a whole", Change{Set, "drives.1.life", `{ afr = "1 %" }`}, []replaced{{"  [drives.life]\n  mtbf = \"1000000 h\"\n", ""}, {"capacity = \"16 TB\"\n", "capacity = \"16 TB\"\nlife = { afr = \"1 %\" }\n"}}},
		{"a key under a header", Change{Set, "drives.1.life.mtbf", "500000 h"}, []replaced{{"1000000 h", "500000 h"}}},
		{"a new entry of an inline table", Change{Set, "recorder.mains.ups_bridges", "15 min"}, []replaced{{`"1 h" }`, `"1 h", ups_bridges = "15 min" }`}}},
		{"a new table in a table", Change{Set, "recorder.swap.powered_down", "30 min"}, []replaced{{"power.restore = \"48 h\"\n", "power.restore = \"48 h\"\nswap = { powered_down = \"30 min\" }\n"}}},
		{"a new dotted key", Change{Set, "recorder.power.redundant", "true"}, []replaced{{"power.restore = \"48 h\"\n", "power.restore = \"48 h\"\npower.redundant = true\n"}}},
		{"a key of a choice's own table", Change{Set, "choices.0.care.notice", "2 h"}, []replaced{{"# its own\n", "# its own\nnotice = \"2 h\"\n"}}},
		{"a choice's own table", Change{Set, "choices.1.care.notice", "2 h"}, []replaced{{"drives = 4\n", "drives = 4\n[choices.care]\nnotice = \"2 h\"\n"}}},
		{"a section that is not there", Change{Set, "care.response", "8 h"}, []replaced{{"\"drives.16 TB.price\" = 200 }\n", "\"drives.16 TB.price\" = 200 }\n\n[care]\nresponse = \"8 h\"\n"}}},
		{"a law in a section that is not there", Change{Set, "care.scrub.exponential", "168 h"}, []replaced{{"\"drives.16 TB.price\" = 200 }\n", "\"drives.16 TB.price\" = 200 }\n\n[care]\nscrub = { exponential = \"168 h\" }\n"}}},
		{"a table that only its sub-table makes", Change{Set, "hazards.common_cause", `{ per_year = 0.1, each_drive = 0.5 }`}, []replaced{{"[hazards.degraded", "[hazards]\ncommon_cause = { per_year = 0.1, each_drive = 0.5 }\n\n[hazards.degraded"}}},
		{"an end of a range", Change{Set, "hazards.degraded_multiplier.high", "3"}, []replaced{{"high = 2\n", "high = 3\n"}}},
		{"a law in place of a time", Change{Set, "choices.0.care.response.exponential", "4 h"}, []replaced{{`response = "4 h"`, `response = { exponential = "4 h" }`}}},
		{"a quoted key", Change{Set, `sizing.customary_width."RAID 6"`, "10"}, []replaced{{"= 200 }\n", "= 200 }\n\n[sizing]\ncustomary_width = { \"RAID 6\" = 10 }\n"}}},
		{"a date", Change{Set, "document.valid_until", "2030-12-31"}, []replaced{{"= 200 }\n", "= 200 }\n\n[document]\nvalid_until = 2030-12-31\n"}}},
		{"a blank value", Change{Set, "name", "  "}, []replaced{{"name = \"A\" # its name\n", ""}}},
		{"a drive's label", Change{Set, "drives.0.label", "8 TB, old"}, []replaced{{`label = "8 TB"`, `label = "8 TB, old"`}, {`drive = "8 TB"`, `drive = "8 TB, old"`}, {`drive = "8 TB"`, `drive = "8 TB, old"`}, {`"drives.8 TB.price"`, `"drives.8 TB, old.price"`}}},
		{"a label that is taken", Change{Set, "drives.0.label", "16 TB"}, []replaced{{`label = "8 TB"`, `label = "16 TB"`}}},

		{"a key away", Change{Remove, "cameras.0.count", ""}, []replaced{{"count = 4   # for now\n", ""}}},
		{"an entry away", Change{Remove, "recorder.mains.mean", ""}, []replaced{{`, mean = "1 h"`, ""}}},
		{"a first entry away", Change{Remove, "recorder.mains.outages_per_year", ""}, []replaced{{`outages_per_year = 2, `, ""}}},
		{"a dotted table away", Change{Remove, "recorder.power", ""}, []replaced{{"power.failures_per_year = 0.05\npower.restore = \"48 h\"\n", ""}}},
		{"the last key of a table away", Change{Remove, "drives.1.life.mtbf", ""}, []replaced{{"  [drives.life]\n  mtbf = \"1000000 h\"\n", ""}}},
		{"the last key of a table that has a comment", Change{Remove, "choices.0.care.response", ""}, []replaced{{"response = \"4 h\"\n", ""}}},
		{"a table away", Change{Remove, "choices.0.care", ""}, []replaced{{"[choices.care] # its own\nresponse = \"4 h\"\n", ""}}},
		{"an item away, with its comments and tables", Change{Remove, "drives.1", ""}, []replaced{{before[index("# The large one."):index("[[choices]]")], ""}}},
		{"an item away, with what is off in it", Change{Remove, "cameras.0", ""}, []replaced{{before[index("# The yard."):index("# Models.")], ""}}},
		{"a section away", Change{Remove, "hazards", ""}, []replaced{{before[index("[hazards"):index("[[options]]")], ""}}},
		{"the last item away", Change{Remove, "options.0", ""}, []replaced{{before[index("\n[[options]]"):], ""}}},
		{"what is not there away", Change{Remove, "care.notice", ""}, nil},

		{"a camera group more", Change{Add, "cameras", ""}, []replaced{{"#activity = 0.5\n", "#activity = 0.5\n\n[[cameras]]\nlabel = \"Camera group 2\"\ncount = 1\nbitrate = \"6 Mbit/s\"\nretention = \"48 h\"\n"}}},
		{"a choice more", Change{Add, "choices", ""}, []replaced{{"drives = 4\n", "drives = 4\n\n[[choices]]\nlabel = \"Choice 3\"\ndrive = \"8 TB\"\nlayout = \"JBOD\"\ndrives = 1\n"}}},
		{"a section more", Change{Add, "goal", ""}, []replaced{{"\"drives.16 TB.price\" = 200 }\n", "\"drives.16 TB.price\" = 200 }\n\n[goal]\nloss_chance = \"1 in 10 000\"\n"}}},
		{"a choice's own section more", Change{Add, "choices.1.recorder", ""}, []replaced{{"drives = 4\n", "drives = 4\n[choices.recorder]\n"}}},

		{"a table in a section that is not there", Change{Add, "sizing.customary_width", ""}, []replaced{{"= 200 }\n", "= 200 }\n\n[sizing]\ncustomary_width = { }\n"}}},
		{"a table more", Change{Add, "choices.0.recorder.mains", ""}, []replaced{{"response = \"4 h\"\n", "response = \"4 h\"\n[choices.recorder]\nmains = { outages_per_year = 0, mean = \"48 h\" }\n"}}},

		{"a copy", Change{Copy, "drives.1", ""}, []replaced{{before[index("# The large one."):index("[[choices]]")],
			before[index("# The large one."):index("[[choices]]")] + `# The large one.
[[drives]]
label = "16 TB copy"
capacity = "16 TB"
transfer = "250 MB/s"
  [drives.life]
  mtbf = "1000000 h"

`}}},
		{"down", Change{Move, "choices.0", Down}, []replaced{{before[index("[[choices]]"):index("[recorder]")], `[[choices]]
label = "Four"
drive = "8 TB"
layout = "RAID 5"
drives = 4

[[choices]]
label = "Two"
drive = "8 TB"
layout = "RAID 1"
drives = 2
[choices.care] # its own
response = "4 h"

`}}},
		{"the first up", Change{Move, "choices.0", Up}, nil},
	} {
		text, want := before, before
		for _, r := range c.want {
			want = replaceFirst(want, r.from, r.to)
		}
		for _, end := range []string{"\n", "\r\n"} {
			own := func(s string) string { return replaceAll(s, "\n", end) }
			got, err := Edit([]byte(own(text)), c.Change)
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
			} else if string(got) != own(want) {
				t.Errorf("%s:\n%s\nwant\n%s", c.name, diff(string(got), own(text)), diff(own(want), own(text)))
			}
		}
	}
}

// TestRefused: changes that there are not say why, and the file stays.
func TestRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []Change{
		{Set, "", "x"}, {Set, "choices.7.label", "x"}, {Set, "choices.0", "x"}, {Set, "a..b", "x"}, {Set, `a."b`, "x"}, {"turn", "name", "x"},
		{Remove, "", ""}, {Add, "", ""}, {Add, "name", ""}, {Add, "choices.0", ""}, {Add, "recorder", ""}, {Add, "recorder.mains", ""}, {Add, "recorder.power", ""}, {Add, "choices.5.care", ""},
		{Copy, "choices", ""}, {Copy, "choices.9", ""}, {Move, "choices.0", "left"}, {Move, "care.0", Up},
	} {
		if got, err := Edit([]byte(before), c); err == nil {
			t.Errorf("%+v is made:\n%s", c, diff(string(got), before))
		}
	}
	for text, c := range map[string]Change{
		"cameras = \"s.xlsx\"\n":   {Add, "cameras", ""},
		"name = \"x\"\n[care\n":    {Set, "name", "y"},
		"name = \"\"\"x\n[care]\n": {Set, "growth", "1"},
	} {
		if got, err := Edit([]byte(text), c); err == nil {
			t.Errorf("%+v is made of %q: %q", c, text, got)
		}
	}
}
