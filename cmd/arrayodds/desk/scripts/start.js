// What stands where, and the beginning.

function showStudy(name) {
  for (const tab of document.querySelectorAll("[role=tab]")) {
    const chosen = tab.id === name + "-tab";
    tab.setAttribute("aria-selected", String(chosen));
    tab.tabIndex = chosen ? 0 : -1;
    byId(tab.getAttribute("aria-controls")).hidden = !chosen;
  }
  if (name in asks) studies.draw(name);
  if (name === "vary") studies.offer().catch(tell);
  if (name === "now" && !byId("now-state").value && site.answer && !site.errors.length) studies.example().catch(tell);
  showSide("answers");
}

// showSide chooses what a narrow screen shows.
function showSide(side) {
  document.body.dataset.side = side;
  byId("to-site").setAttribute("aria-pressed", String(side === "site"));
  byId("to-answers").setAttribute("aria-pressed", String(side === "answers"));
}

function tabs() {
  const list = document.querySelector("[role=tablist]");
  list.addEventListener("click", ({ target }) => target.role === "tab" && showStudy(target.id.replace(/-tab$/, "")));
  list.addEventListener("keydown", (event) => {
    const all = [...list.children];
    const at = all.indexOf(document.activeElement);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: all.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const tab = all[(to + all.length) % all.length];
    tab.focus();
    showStudy(tab.id.replace(/-tab$/, ""));
  });
}

async function starters() {
  const { answer } = await engines.ask("starters");
  const dialog = byId("question");
  dialog.replaceChildren(el("h2", {}, "Begin with"),
    el("ul", { class: "starters" }, answer.starters.map((starter) => el("li", {},
      button(starter.title, async () => { dialog.close(); if (await leaveSite()) site.open(starter.text, starter.name + ".toml"); }, { class: "main" }),
      el("p", {}, starter.says)))),
    el("div", { class: "buttons" }, button("Open a site file", () => { dialog.close(); byId("open-file").click(); }), button("Cancel", () => dialog.close())));
  dialog.showModal();
}

function wire() {
  tabs();
  site.heard.push(form.hear, editor.hear, answers.hear, studies.hear);
  answers.finished.push(() => slider.hear());
  byId("undo").onclick = () => site.undo();
  byId("redo").onclick = () => site.redo();
  byId("new").onclick = () => starters().catch(tell);
  byId("open").onclick = () => byId("open-file").click();
  byId("open-file").onchange = ({ target }) => { take(target.files); target.value = ""; };
  byId("save-site").onclick = saveSite;
  byId("link").onclick = shareLink;
  byId("as-form").onclick = () => editor.show(false);
  byId("as-text").onclick = () => editor.show(true);
  byId("text").addEventListener("input", editor.typed);
  byId("to-site").onclick = () => showSide("site");
  byId("to-answers").onclick = () => showSide("answers");
  byId("pair-a").onchange = byId("pair-b").onchange = () => pairs.ask().catch(tell);
  document.addEventListener("keydown", (event) => {
    const typing = /^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName);
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !typing) {
      event.preventDefault();
      event.shiftKey ? site.redo() : site.undo();
    } else if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s") {
      event.preventDefault();
      saveSite();
    }
  });
  const carriesFiles = (event) => [...event.dataTransfer.types].includes("Files");
  document.addEventListener("dragover", (event) => { if (!carriesFiles(event)) return; event.preventDefault(); document.body.classList.add("dropping"); });
  document.addEventListener("dragleave", (event) => { if (!event.relatedTarget) document.body.classList.remove("dropping"); });
  document.addEventListener("drop", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    document.body.classList.remove("dropping");
    take(event.dataTransfer.files);
  });
  addEventListener("hashchange", async () => {
    try {
      const text = await siteOfLink();
      if (text !== null && text !== site.text && await leaveSite()) site.open(text, "site.toml");
    } catch (err) { complain(`The site in the link cannot be read: ${err.message}`); }
  });
  addEventListener("beforeunload", (event) => { if (site.changed) event.preventDefault(); });
}

async function start() {
  const missing = lacking();
  if (missing) return void (byId("starting").textContent = missing);
  const begun = engines.begin();
  begun.catch(() => {}); // it is waited for below
  await new Promise((done) => setTimeout(done)); // the browser has read the page then
  wire();
  const given = JSON.parse(byId("given").textContent);
  const files = Object.fromEntries(Object.entries(given.files || {}).map(([name, base64]) => [name, Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))]));
  // What was worked out as the page was written stands there while the engine starts.
  const shown = given.first && !hasLink();
  const opened = shown && site.open(given.text, given.name, files, given.first);
  try {
    await begun;
  } catch (err) {
    const why = `The engine did not start: ${err.message}. A browser of today should run it.`;
    if (shown) { // what was typed by then can still be saved
      await opened;
      answers.state("First figures. There are no others, as the engine did not start.");
      return complain(why + " What stands here can be read, and the site file saved.");
    }
    byId("starting").textContent = why;
    return;
  }
  performance.mark("ready");
  if (shown) return void engines.ask("read", { text: given.text }, files).catch(() => {}); // the first change is quick then
  await showDesk();
  let text = null;
  try { text = await siteOfLink(); } catch (err) { complain(`The site in the link cannot be read: ${err.message}`); }
  if (text !== null) return site.open(text, "site.toml");
  if (given.text !== undefined && given.text !== "") {
    engines.pool.warm("simulate", (choice) => ({ text: given.text, choice }), files);
    return site.open(given.text, given.name, files);
  }
  await site.open("", "site.toml");
  starters().catch(tell);
}

// showDesk shows the desk, one part after the other: fonts are read, and all is laid out,
// as it comes into sight.
async function showDesk(withTable = false) {
  byId("starting").hidden = true;
  byId("desk").hidden = false;
  await reveal(document.querySelectorAll("header, #site, #answers" + (withTable ? ", #answer-table" : "")));
}

// lacking says what the browser lacks, "" where it has all that is needed.
function lacking() {
  for (const name of ["WebAssembly", "DecompressionStream", "Worker", "structuredClone"]) {
    if (!(name in window)) return `This browser lacks ${name}, which the engine runs on. A browser of today has it.`;
  }
  return "";
}

start();
