package desk_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/cmd/arrayodds/desk"
)

// typed is a script that types into the field of a path.
func typed(path, text string) string {
	return fmt.Sprintf(`(async () => {
		const field = document.querySelector('#form [data-path=%q]');
		if (!field) return "no field";
		field.focus();
		field.value = %q;
		field.dispatchEvent(new Event(field.tagName === "SELECT" ? "change" : "input", { bubbles: true }));
		await new Promise((done) => setTimeout(done, 150));
		await site.queue;
		return "typed";
	})()`, path, text)
}

// unfolded is a script that unfolds parts of the form.
func unfolded(paths ...string) string {
	list, _ := json.Marshal(paths)
	return fmt.Sprintf(`(() => { for (const path of %s) form.open.add(path); form.draw(site.answer.form); form.hear(site.answer); return "unfolded"; })()`, list)
}

// A slider sets its field to each value that it comes to, and the answer follows.
func TestSlider(t *testing.T) {
	thorough.Only(t, "make test slides in a section that the file lacks")
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: quick(t)}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section care"))
	got := tab.Await(`(async () => {
		const tool = [...document.querySelectorAll("#form .tools button")].find((button) => (button.getAttribute("aria-label") || "").startsWith("Slide Rebuild share"));
		tool.click();
		await ` + until(`document.querySelector(".slider input, .slider .error")`) + `;
		const range = document.querySelector(".slider input");
		if (!range) return document.querySelector(".slider").textContent;
		range.value = range.max;
		range.dispatchEvent(new Event("input", { bubbles: true }));
		await new Promise((done) => setTimeout(done, 300));
		await site.queue;
		return document.querySelector('[data-path="care.rebuild_share"]').value + ", " + document.querySelectorAll(".slider .curve path").length + " lines";
	})()`)
	if got != "1, 1 lines" { // the JBOD has no rebuilds
		t.Errorf("slid to its end, the field and the curves are %s", got)
	}
	await(t, tab)
	if !strings.Contains(tab.Ask(`site.text`), "rebuild_share = 1 ") {
		t.Error("the file does not have what was slid to")
	}
}

// A bare number takes the unit that stands beside its field, one that has a unit keeps it;
// a whole number has its bounds, and the arrow keys stay within them.
func TestUnitsAndBounds(t *testing.T) {
	thorough.Only(t, "make test types one number")
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: quick(t)}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section drives", "drives.0", "section cameras", "cameras.0", "section recorder"))
	read := func(path string) string {
		return tab.Ask(fmt.Sprintf(`form.fields.get(%q).box.querySelector("label").textContent + ": " + form.fields.get(%[1]q).field.text + form.fields.get(%[1]q).error.textContent`, path))
	}
	for _, c := range []struct{ path, typed, want string }{
		{"drives.0.capacity", "9", "Capacity in TB needed: 9 TB"},
		{"drives.0.capacity", "9500 GB", "Capacity needed: 9500 GB"},
		{"drives.0.capacity", "8000", "Capacity in GB needed: 8000 GB"},
		{"cameras.0.count", "7", "Count needed: 7"},
	} {
		tab.Await(typed(c.path, c.typed))
		if got := read(c.path); got != c.want {
			t.Errorf("typed %q into %s: %q, want %q", c.typed, c.path, got, c.want)
		}
	}
	if got := tab.Await(`(async () => {
		const press = async (path, key) => {
			const field = form.fields.get(path).input;
			field.focus();
			field.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
			form.set.now && await form.set.now();
			await site.queue;
			return [field.value, field.getAttribute("aria-valuenow"), field.getAttribute("aria-valuemin"), field.getAttribute("aria-valuemax"), field.inputMode].join(" ");
		};
		await site.change({ op: "set", path: "recorder.bays", value: "1" });
		return [await press("cameras.0.count", "ArrowUp"), await press("recorder.bays", "ArrowDown")].join(", ");
	})()`); got != "8 8 1 100000 numeric, 1 1 1 10000 numeric" {
		t.Errorf("by the arrow keys: value, now, lowest, highest, keyboard: %s", got)
	}
}

// A slider of a section that the file does not have stays there, with the focus, when its
// first step puts the section into the file, and when the form is drawn anew for that.
func TestSliderOfASectionThatTheFileLacks(t *testing.T) {
	text := strings.Replace(rough(t, scheduled), `cameras = "plan.csv"`, "", 1)
	tab := lent(t, desk.Given{Name: "site.toml", Text: text}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section care"))
	got := tab.Await(`(async () => {
		const tool = [...document.querySelectorAll("#form .tools button")].find((button) => (button.getAttribute("aria-label") || "").startsWith("Slide Rebuild share"));
		if (!tool) return "nothing to slide";
		tool.click();
		await ` + until(`document.querySelector(".slider input, .slider .error")`) + `;
		const range = document.querySelector(".slider input");
		range.focus();
		const there = () => range.isConnected && document.activeElement === range;
		const had = site.text.includes("rebuild_share");
		range.value = range.max;
		range.dispatchEvent(new Event("input", { bubbles: true }));
		await ` + until(`site.text.includes("rebuild_share")`) + `;
		await site.queue;
		const slid = there();
		await site.change({ op: "set", path: "service_life", value: "6 y" }); // draws anew what the step left
		return [had, slid, there(), range.closest("[data-field]").dataset.field, /Leave all of this out/.test(byId("form").textContent)].join();
	})()`)
	if got != "false,true,true,care.rebuild_share,true" {
		t.Errorf("there before, the slider after a step, drawn anew, below, the section in the file: %s", got)
	}
	await(t, tab)
}

// Who types letter by letter sees what was typed, also where the form is drawn anew for
// it; undo gives every text back; and nothing of one file can be saved beside another.
func TestTyping(t *testing.T) {
	thorough.Only(t, "make test types and undoes on the way from a new site to a sheet")
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: quick(t)}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section goal", "section drives", "drives.0", "section cameras", "cameras.0"))
	for _, c := range []struct{ path, text string }{{"drives.0.label", "8, n"}, {"cameras.0.retention", "9 d"}, {"goal.budget", "90"}} {
		got := tab.Await(fmt.Sprintf(`(async () => {
			const field = () => document.querySelector('#form [data-path=%q]');
			field().focus();
			field().value = "";
			for (const letter of %q) {
				field().value += letter;
				field().dispatchEvent(new Event("input", { bubbles: true }));
				await new Promise((done) => setTimeout(done, 120));
				await site.queue;
			}
			return field().value;
		})()`, c.path, c.text))
		if got != c.text {
			t.Errorf("typed %q into %s, which then has %q", c.text, c.path, got)
		}
	}
	got := tab.Await(`(async () => {
		const texts = [site.text];
		for (const value of ["3 y", "4 y"]) { await site.change({ op: "set", path: "service_life", value }); texts.push(site.text); site.lastOf = ""; }
		site.undo(); site.undo();
		await site.queue;
		const back = site.text === texts[0];
		site.redo(); site.redo();
		await site.queue;
		return [back, site.text === texts[2]].join();
	})()`)
	if got != "true,true" {
		t.Errorf("undone twice and done again twice at once: %s", got)
	}
	if got := tab.Await(`(async () => { const read = site.open("service_life = 3", "other.toml"); await read; return byId("compare-outs").children.length + ", " + byId("points").children.length + ", " + site.errors.length; })()`); !strings.HasPrefix(got, "0, 0, ") || strings.HasSuffix(got, ", 0") {
		t.Errorf("of another file that is wrong stand there outputs, sentences, errors: %s", got)
	}
}
