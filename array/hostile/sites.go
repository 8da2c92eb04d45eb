package hostile

import (
	"fmt"
	"strings"
)

// drive and choice are a site that is read.
const (
	life   = "service_life = \"5 y\"\n"
	drive  = "[[drives]]\nlabel = \"12 TB\"\ncapacity = \"12 TB\"\nlife = { afr = \"1.5 %\" }\ntransfer = \"210 MB/s\"\n"
	choice = "[[choices]]\nlabel = \"Eight\"\ndrive = \"12 TB\"\nlayout = \"RAID 6\"\ndrives = 8\n"
	site   = life + drive + choice
	camera = "[[cameras]]\ncount = 2\nbitrate = \"6 Mbit/s\"\nretention = \"30 d\"\n"
)

// Sites returns hostile site files.
func Sites() []Input {
	const file = "site.toml"
	refused := func(name string, size int, make func(int) []byte) Input { return Input{name, file, make, size, false} }
	read := func(name string, size int, make func(int) []byte) Input { return Input{name, file, make, size, true} }
	nested := func(before, open, in, shut, after string) func(int) []byte {
		return func(n int) []byte {
			return []byte(before + strings.Repeat(open, n) + in + strings.Repeat(shut, n) + after)
		}
	}
	parts := strings.Repeat("a.", 14) + "a"
	return []Input{
		refused("nested lists", 9_990, nested("service_life = ", "[", "", "]", "\n"+drive+choice)),
		refused("nested tables", 9_990, nested("service_life = ", "{a=", "1", "}", "\n"+drive+choice)),
		refused("nested tables of dotted keys", 9_990, nested(site+"x = ", "{"+parts+"=", "1", "}", "\n")),
		refused("nested lists and tables", 9_990, nested(site+"x = ", "[{a=", "1", "}]", "\n")),
		refused("nested without end", 2_000_000, text(site+"x = ", "[", "\n")),
		refused("a key of many parts", 1_000_000, text("a", ".a", " = 1\n"+site)),
		refused("a header of many parts", 1_000_000, text(site+"[a", ".a", "]\n")),
		refused("a long key", 4_000_000, text(site, "a", " = 1\n")),
		refused("a long quoted key", 600_000, text(site+"\"", `\u0007`, "\" = 1\n")),
		refused("a long text", 2_000_000, text("name = \"", "x", "\"\n"+site)),
		refused("a long number", 2_000_000, text("service_life = ", "5", "\n"+drive+choice)),
		refused("a long quantity", 2_000_000, text("service_life = \"", "5", " y\"\n"+drive+choice)),
		refused("billions of drives", 1, text(site+"hot_spares = 999999999999", "9", "\n")),
		refused("unknown keys", 120_000, numbered(site, func(i int) string { return fmt.Sprintf("k%d = 1\n", i) }, "")),
		refused("unknown tables", 120_000, numbered(site, func(i int) string { return fmt.Sprintf("[k%d]\n", i) }, "")),
		refused("a list of empty tables", 500_000, text(site+"x = [", "{},", "]\n")),
		refused("a list of numbers", 1_000_000, text(site+"x = [", "1,", "]\n")),
		refused("ranges", 150_000, text(site+"x = [", "{low=1,likely=2,high=3},", "]\n")),
		refused("drives", 120_000, text(site, "[[drives]]\n", "")),
		refused("choices", 120_000, text(site, "[[choices]]\n", "")),
		refused("camera groups", 70_000, text(site, camera, "")),
		refused("mistakes", 25_000, text(site, camera+"bitrat = 7\n", "")),
		refused("mistakes of syntax", 800_000, text(site, "a = \n", "")),
		refused("lines that are none", 1_000_000, text(site, "= 1\n", "")),
		refused("lists without end", 800_000, text(site, "a = [\n", "")),
		refused("texts without end", 400_000, text(site, "a = \"\"\"\n", "")),
		refused("NULs", 2_000_000, text(site, "\x00", "")),
		refused("no UTF-8", 2_000_000, text(site+"name = \"", "\xff", "\"")),
		refused("too long a file", 5_000_000, text(site, "\n", "")),
		refused("a schedule that is itself", 1, text("cameras = \"site.toml\"\n", "", site)),
		refused("a logo that is itself", 1, text(site+"[document]\nlogo = \"site.toml\"\n", "", "")),
		read("blank lines", 4_000_000, text("", "\n", site)),
		read("comments", 2_000_000, text(site, "#\n", "")),
		read("all camera groups", 1_000, numbered(site, func(i int) string { return camera + fmt.Sprintf("label = \"c%d\"\n", i) }, "")),
		read("all choices", 200, numbered(life+drive, func(i int) string { return strings.Replace(choice, "Eight", fmt.Sprint(i), 1) }, "")),
		read("wide groups", 1, func(int) []byte {
			return []byte(life + drive + strings.NewReplacer("RAID 6", "997+3", "drives = 8", "drives = 1000").Replace(choice))
		}),
		read("many groups", 1, func(int) []byte {
			return []byte(life + drive + strings.NewReplacer("RAID 6", "RAID 1", "drives = 8", "drives = 1000\ngroups = 500\nhot_spares = 100").Replace(choice))
		}),
		read("all ranges", 100, numbered(site, func(i int) string {
			return strings.Replace(camera, "count = 2", fmt.Sprintf("label = \"c%d\"\ncount = { low = 1, likely = 2, high = 3 }", i), 1)
		}, "")),
	}
}
