package desk_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

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
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}, 1280)
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
	if got != "1, 7 lines" { // the JBOD has no rebuilds
		t.Errorf("slid to its end, the field and the curves are %s", got)
	}
	await(t, tab)
	if !strings.Contains(tab.Ask(`site.text`), "rebuild_share = 1 ") {
		t.Error("the file does not have what was slid to")
	}
}

// A slider of a section that the file does not have stays there, with the focus, when its
// first step puts the section into the file, and when the form is drawn anew for that.
func TestSliderOfASectionThatTheFileLacks(t *testing.T) {
	text := strings.Replace(scheduled, `cameras = "plan.csv"`, "", 1)
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
	tab := lent(t, desk.Given{Name: "saltmarsh.toml", Text: demo(t)}, 1280)
	await(t, tab)
	tab.Ask(unfolded("section goal", "section drives", "drives.0", "section cameras", "cameras.0"))
	for path, text := range map[string]string{"drives.0.label": "8 TB, new", "cameras.0.retention": "21 d", "goal.budget": "9000"} {
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
		})()`, path, text))
		if got != text {
			t.Errorf("typed %q into %s, which then has %q", text, path, got)
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
