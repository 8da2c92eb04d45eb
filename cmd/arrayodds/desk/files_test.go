package desk_test

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/cmd/arrayodds/desk"
)

// A schedule that is dropped on the page becomes the cameras of the site, and a site that
// names one says that it is lacking until it comes.
func TestDropASchedule(t *testing.T) {
	tab := lent(t, desk.Given{Name: "site.toml", Text: scheduled}, 1280)
	lacking := `(async () => {
		await ` + until(`site.answer && !document.getElementById("desk").hidden`) + `;
		return site.answer.wanted.join() + ": " + site.errors.map((error) => error.text).join();
	})()`
	if got := tab.Await(lacking); !strings.HasPrefix(got, "plan.csv: ") || !strings.Contains(got, "plan.csv") {
		t.Fatalf("of the file that is lacking it says %q", got)
	}
	drop := func(name, text string) string {
		return fmt.Sprintf(`(async () => {
			const carried = new DataTransfer();
			carried.items.add(new File([%q], %q, { type: "text/csv" }));
			document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: carried, bubbles: true, cancelable: true }));
			await new Promise((done) => setTimeout(done, 200));
			const use = [...document.querySelectorAll("#question[open] button")].find((button) => /schedule/.test(button.textContent));
			if (use) use.click();
			await new Promise((done) => setTimeout(done, 200));
			await site.queue;
			return "dropped";
		})()`, text, name)
	}
	tab.Await(drop("plan.csv", plan))
	await(t, tab)
	if got := tab.Ask(`document.getElementById("demand").textContent`); !strings.Contains(got, "10 cameras") {
		t.Errorf("with the schedule the demand is %q", got)
	}
	// Another takes the place of the cameras that there are.
	tab.Await(drop("other.csv", "label,count,bitrate,retention\nGate,9,2 Mbit/s,10 d\n"))
	await(t, tab)
	if got := tab.Ask(`site.text.split("\n").filter((line) => line.startsWith("cameras")).join() + document.getElementById("demand").textContent`); !strings.Contains(got, `"other.csv"`) || !strings.Contains(got, "9 cameras") {
		t.Errorf("with another schedule the demand is %q", got)
	}
}

// A link holds a small site.
func TestLink(t *testing.T) {
	tab := lent(t, desk.Given{Name: "site.toml", Text: strings.Replace(scheduled, `cameras = "plan.csv"`, `name = "Læsø, 3 æ"`, 1)}, 1280)
	await(t, tab)
	if got := tab.Await(`(async () => {
		const link = await linkTo(site.text);
		location.hash = link.split("#")[1];
		return String(await siteOfLink() === site.text);
	})()`); got != "true" {
		t.Error("a site is another behind its link")
	}
	if got := tab.Await(`linkTo(Array.from({ length: 9000 }, () => Math.random()).join()).then(() => "made", (err) => err.message)`); !strings.Contains(got, "too large for a link") {
		t.Errorf("of a site that is too large it says %q", got)
	}
	if got := tab.Await(`(async () => { location.hash = "site=notpacked"; return siteOfLink().then(() => "read", () => "refused"); })()`); got != "refused" {
		t.Errorf("a broken link is %s", got)
	}
}
