package desk_test

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/cmd/arrayodds/desk"
)

// hostile returns the quick site with labels that are markup, and a name for its file.
func hostile(t testing.TB) desk.Given {
	const markup = `<img src=x onerror=alert(1)><script>alert(2)</script>`
	return desk.Given{Name: "</script><b>.toml", Text: strings.NewReplacer(`label = "`, `label = "`+markup, `drive = "`, `drive = "`+markup).Replace(quick(t))}
}

// markup says where what a label or the name of the hostile site's file holds became markup.
func markup(tab *chartstest.Tab) (wrong []string) {
	if got := tab.Ask(`document.querySelectorAll("#desk img, #desk script, #desk b:not(.key b)").length`); got != "0" {
		wrong = append(wrong, got+" elements came of labels")
	}
	if got := tab.Ask(`site.name`); got != "</script><b>.toml" {
		wrong = append(wrong, fmt.Sprintf("the file is called %q", got))
	}
	return wrong
}

// What ends a worker leaves the site.
func TestWorkersThatDie(t *testing.T) {
	tab := lent(t, desk.Given{Name: "site.toml", Text: rough(t, scheduled), Files: map[string][]byte{"plan.csv": []byte(plan)}}, 1280)
	await(t, tab)
	got := tab.Await(`(async () => {
		for (const engine of engines.pool.engines) engine.die("it ran out of memory");
		engines.front.die("it ran out of memory");
		await site.change({ op: "set", path: "choices.0.label", value: "Pair" });
		document.getElementById("complaint").hidden = true; // of a request that was under way
		return site.text.includes('"Pair"') ? "kept" : "lost";
	})()`)
	if got != "kept" {
		t.Errorf("after its workers died the site is %s", got)
	}
	await(t, tab)
	// One that dies at work is said.
	got = tab.Await(`(async () => {
		const job = engines.pool.do("test", "rank", { text: site.text }, site.files);
		await new Promise((done) => setTimeout(done, 20));
		for (const engine of engines.pool.engines) if (engine.taken) engine.die("it ran out of memory");
		return job.then(() => "answered", (err) => err.message);
	})()`)
	if got != "it ran out of memory" && got != "answered" {
		t.Errorf("of a worker that died at work is said %q", got)
	}
}
