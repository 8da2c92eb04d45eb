package desk_test

import (
	"strings"
	"testing"

	"arrayodds/array/site/starter"
	"arrayodds/cmd/arrayodds/desk"
)

// What a site file, a label or a link holds never becomes markup, and what ends a worker
// leaves the site.
func TestHostileSiteAndWorkersThatDie(t *testing.T) {
	hostile := strings.Replace(starter.Text(), `label = "`, `label = "<img src=x onerror=alert(1)><script>alert(2)</script>`, -1)
	tab := opened(t, desk.Given{Name: "</script><b>.toml", Text: hostile}, 1280)
	tab.Await(`(async () => { await ` + until(`site.answer && !document.getElementById("desk").hidden`) + `; return "read"; })()`)
	if got := tab.Ask(`document.querySelectorAll("#desk img, #desk script, #desk b:not(.key b)").length`); got != "0" {
		t.Errorf("%s elements came of labels", got)
	}
	if got := tab.Ask(`site.name`); got != "</script><b>.toml" {
		t.Errorf("the file is called %q", got)
	}
	tab2 := lent(t, desk.Given{Name: "site.toml", Text: scheduled, Files: map[string][]byte{"plan.csv": []byte(plan)}}, 1280)
	await(t, tab2)
	got := tab2.Await(`(async () => {
		for (const engine of engines.pool.engines) engine.die("it ran out of memory");
		engines.front.die("it ran out of memory");
		await site.change({ op: "set", path: "choices.0.label", value: "Pair" });
		document.getElementById("complaint").hidden = true; // of a request that was under way
		return site.text.includes('"Pair"') ? "kept" : "lost";
	})()`)
	if got != "kept" {
		t.Errorf("after its workers died the site is %s", got)
	}
	await(t, tab2)
	// One that dies at work is said.
	got = tab2.Await(`(async () => {
		const job = engines.pool.do("test", "rank", { text: site.text }, site.files);
		await new Promise((done) => setTimeout(done, 20));
		for (const engine of engines.pool.engines) if (engine.taken) engine.die("it ran out of memory");
		return job.then(() => "answered", (err) => err.message);
	})()`)
	if got != "it ran out of memory" && got != "answered" {
		t.Errorf("of a worker that died at work is said %q", got)
	}
}
