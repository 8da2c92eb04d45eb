package desk_test

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/desk"
	"arrayodds/cmd/desk/session"
)

// A schedule that is dropped on the page becomes the cameras of the site, and a site that
// names one says that it is lacking until it comes.
func TestDropASchedule(t *testing.T) {
	thorough.Only(t, "make test opens a schedule with its site")
	tab := lent(t, desk.Given{Name: "site.toml", Text: rough(t, scheduled)}, 1280)
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

// The law that was fitted to a record can be put into a drive of the site, and undone.
func TestPutAFittedLawIntoTheSite(t *testing.T) {
	thorough.Only(t, "make test changes the site in its form")
	record, err := os.ReadFile("../testdata/readme/fleet.csv")
	if err != nil {
		t.Fatal(err)
	}
	answer, _, err := session.New().Handle(t.Context(), "fit", []byte(`{"name": "fleet.csv", "until": "2026-06-30"}`), map[string][]byte{"record": record}, nil)
	var fit struct{ Laws []struct{ Life string } }
	if err == nil {
		err = json.Unmarshal(answer, &fit)
	}
	if err != nil || len(fit.Laws) != 1 {
		t.Fatalf("without a page the record gives %s, %v", answer, err)
	}
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: quick(t)}, 1280)
	await(t, tab)
	got := tab.Await(fmt.Sprintf(`(async () => {
		const text = site.text;
		studies.record = { name: "fleet.csv", bytes: new TextEncoder().encode(%q) };
		showStudy("fit");
		byId("fit-until").value = "2026-06-30";
		await studies.run("fit");
		const offer = byId("fit-outs").querySelector(".law-of");
		if (!offer) return "nothing is offered: " + byId("fit-status").textContent;
		const drive = offer.querySelector("select");
		drive.value = "drives.1";
		offer.querySelector("button").click();
		await site.queue;
		const fitted = /^life = (\{.*\})/m.exec(site.text.split("[[drives]]")[2])[1];
		const others = site.text.split("\n").filter((line) => !text.split("\n").includes(line)).length;
		const wrong = site.errors.length;
		await site.undo();
		return [drive.options.length, others, wrong, site.text === text, fitted].join();
	})()`, record))
	drives := strings.Count(demo(t), "[[drives]]")
	if want := fmt.Sprintf("%d,1,0,true,%s", drives, fit.Laws[0].Life); got != want {
		t.Errorf("drives offered, changed lines, errors, undone, the law in the file: %s, want %s", got, want)
	}
}

// A link holds a small site.
func TestLink(t *testing.T) {
	thorough.Only(t, "make test opens sites by themselves")
	tab := lent(t, desk.Given{Name: "site.toml", Text: strings.Replace(rough(t, scheduled), `cameras = "plan.csv"`, `name = "Læsø, 3 æ"`, 1)}, 1280)
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
