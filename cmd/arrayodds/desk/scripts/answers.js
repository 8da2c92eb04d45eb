// The answer: every choice of the site, sized at once and simulated, sharpened in
// place until it is as accurate as the file asks for.

const answers = {
  round: 0,
  work: new Map(), // by label: how long a choice took last, the longest goes first
  rows: [],        // of the choices, in the order of the file
  done: null,      // the answer of the last round that was finished
  of: "",          // the text that it is of
  timer: 0,
  drawn: 0,        // when figures of this round were drawn last: at most ten times a second

  // hear begins anew with what was read. What is wrong leaves the last figures, pale.
  hear(answer, how) {
    const sizes = answer.sizes || [];
    byId("demand").replaceChildren(...(answer.demand || []).map((line) => el("p", {}, line)));
    const stale = answer.errors && answer.errors.length;
    byId("answer-panel").classList.toggle("stale", !!stale);
    // What can be saved and set side by side is of this file or is not there.
    byId("compare-outs").replaceChildren();
    byId("reasons").replaceChildren();
    byId("pair").hidden = true;
    if (how.opened || (!stale && !sizes.length)) {
      answers.done = answers.places = null;
      answers.rows = [];
      byId("points").replaceChildren();
      byId("short-answer").textContent = "";
      byId("answer-panel").classList.remove("waiting");
      answers.draw();
    }
    if (stale) {
      answers.round++;
      engines.pool.end(answers.running);
      answers.state(answers.rows.length ? "These figures are of the file as it was before: something in it is wrong now." : "Something in the file is wrong; once it is mended, the figures come.");
      return;
    }
    const was = new Map(answers.rows.map((row) => [row.label, row]));
    answers.rows = sizes.map((size, i) => ({ ...size, chance: null, was: was.get(size.label) || null, ...answers.figuresOf(how.figures && how.figures[i]) }));
    answers.draw();
    answers.begin(site.text, site.named());
  },

  // begin simulates all choices, spread over the workers, and then what the doubt about
  // the inputs leaves.
  async begin(text, files) {
    const round = ++answers.round;
    engines.pool.end("warm");
    if (answers.running) engines.pool.end(answers.running);
    answers.running = round;
    answers.drawn = 0;
    if (!answers.rows.length) return answers.state("The file has no choices to compare yet. Add some, or let Choose find them.");
    const began = performance.now();
    byId("answer-panel").classList.add("waiting"); // the sentences are of the file before
    answers.state(Engine.module ? "Simulating…" : "First figures; the engine starts, and will sharpen them…");
    const order = answers.rows.map((_, i) => i).sort((a, b) => (answers.work.get(answers.rows[b].label) || 0) - (answers.work.get(answers.rows[a].label) || 0));
    const results = {};
    try {
      await Promise.all(order.map(async (choice) => {
        const { answer, out } = await engines.pool.do(round, "simulate", { text, choice }, files, (tell) => answers.hearTell(round, choice, tell));
        if (round !== answers.round) return;
        answers.check(answer);
        results["result" + choice] = out.result;
        answers.work.set(answers.rows[choice].label, answer.work || 0);
        answers.hearTell(round, choice, answer);
        answers.rows[choice].settled = true;
      }));
      if (round !== answers.round) return;
      answers.state("Working out what is not known of the inputs…");
      const parts = await Promise.all([...Array(known.replicates).keys()].map(async (replicate) => {
        const { answer, out } = await engines.pool.do(round, "replicate", { text, replicate }, { ...files, ...results });
        answers.check(answer);
        return ["replicate" + replicate, out.replicate];
      }));
      if (round !== answers.round) return;
      const all = { ...files, ...results, ...Object.fromEntries(parts) };
      const { answer } = await engines.ask("compare", { text }, all);
      if (round !== answers.round) return;
      if (answer.errors && answer.errors.length) return answers.state(answer.errors.map((error) => error.text).join(" "));
      answers.parts = all;
      answers.finish(answer, text, performance.now() - began);
    } catch (err) {
      if (round !== answers.round || err.message === stopped) return;
      answers.state(`The simulation ended: ${err.message}. The site is kept; change it, or try again.`);
      byId("answer-state").append(" ", button("Try again", () => answers.begin(site.text, site.named())));
    }
  },

  // check ends a round whose answer is that something is wrong.
  check(answer) { if (answer.errors && answer.errors.length) throw new Error(answer.errors.map((error) => error.text).join(" ")); },

  hearTell(round, choice, tell) {
    if (round !== answers.round || !tell || !tell.chance) return;
    Object.assign(answers.rows[choice], answers.figuresOf(tell));
    answers.state("Simulating…");
    if (answers.timer) return;
    answers.timer = setTimeout(() => { answers.timer = 0; answers.drawn = performance.now(); answers.draw(); }, Math.max(16, answers.drawn + 100 - performance.now()));
  },

  // figuresOf returns what a row shows of what was told, nothing of nothing.
  figuresOf(tell) {
    if (!tell || !tell.chance) return {};
    if (!answers.first) answers.first = performance.now();
    return { chance: tell.chance, odds: tell.odds, interval: tell.interval };
  },

  finish(answer, text, took) {
    performance.mark("answered");
    byId("answer-panel").classList.remove("waiting");
    answers.done = answer;
    answers.of = text;
    answers.rows = answer.rows.map((row) => ({ ...row, settled: true }));
    answers.draw();
    answers.state(`Simulated in ${(took / 1000).toFixed(1)} s. A simulated chance is an estimate under the assumptions of the file.`);
    byId("points").replaceChildren(...answer.points.map((point) => el("li", {}, point)));
    answers.why(answer);
    pairs.draw();
    outs.draw("compare", byId("compare-outs"), engines.front).catch(tell);
    speak(answer.points[0] || "The answer is there.");
    byId("short-answer").textContent = answer.points[0] || "";
    for (const hear of answers.finished) hear(answer);
  },
  finished: [],

  // why draws the reasons: what losses are made of, what moves them, what was left out.
  why(answer) {
    const of = (key) => answer.rows.flatMap((row) => [].concat(row[key] || []).slice(0, 3).map((says) => `${row.label}: ${says}`));
    const parts = [
      ["What losses are made of", of("losses")],
      ["What moves the chance most", of("moves")],
      ...answer.sections.filter(({ about }) => about !== "What to buy").map(({ about, says }) => [about, says]),
      ["To beware of", answer.cautions || []],
    ];
    byId("reasons").replaceChildren(...parts.filter(([, says]) => says.length).map(([about, says]) =>
      el("details", { class: "why" }, el("summary", {}, about), el("ul", { class: "says" }, says.map((text) => el("li", {}, text))))));
  },

  state(text) { byId("answer-state").textContent = text; },

  // draw draws the rows: the safest first once all are settled, before that in the
  // order that they had, so that nothing jumps about while it sharpens.
  draw() {
    const rows = answers.rows.map((row, place) => ({ row, place }));
    const settled = rows.every(({ row }) => row.settled);
    if (settled) answers.places = answers.done && answers.done.order ? answers.done.order.slice() : rows.slice().sort((a, b) => chanceOf(a.row) - chanceOf(b.row)).map(({ place }) => place);
    const places = answers.places && answers.places.length === rows.length ? answers.places : rows.map(({ place }) => place);
    const goal = answers.goal();
    const shown = rows.map(({ row }) => row.chance || row.was && row.was.chance);
    const doubts = rows.map(({ row }) => row.doubt && { value: row.doubt.low, low: row.doubt.low, high: row.doubt.high });
    const scale = chanceScale([...shown, ...doubts], goal);
    const body = byId("rows");
    body.replaceChildren(...places.map((place) => answers.row(rows[place].row, scale, goal)));
    byId("scale").replaceChildren(scale ? axis(scale) : "");
    byId("in-order").textContent = settled ? ", the least first" : "";
    byId("goal-key").hidden = !goal;
    byId("answer-table").hidden = !rows.length;
  },

  // reveal shows the rows that were drawn one after the other.
  async reveal() {
    const rows = [...byId("rows").children];
    for (const row of rows) row.hidden = true;
    await pause();
    await reveal(rows);
  },

  goal() { return answers.done && answers.done.goal && answers.done.goal.loss || 0; },

  row(row, scale, goal) {
    const before = !row.chance && row.was;
    const now = before ? row.was : row;
    const notes = [
      row.riskOdds && row.riskOdds !== row.odds ? el("small", {}, `in all ${row.riskOdds}`) : null,
      ...(row.warnings || []).map((warning) => el("small", { class: "warning" }, warning)),
    ];
    return el("tr", { class: before ? "before" : "" },
      el("th", { scope: "row" }, row.label, el("small", {}, [row.layout, row.drives].filter(Boolean).join(", "))),
      el("td", { class: "risk", "data-head": "Loses footage" }, el("strong", {}, now.odds || "…"), el("small", {}, now.interval || ""), notes),
      el("td", { class: "picture" }, scale ? whisker(scale, now.chance, row.doubt, goal) : ""),
      el("td", { "data-head": "Holds" }, row.held || "", row.meets === false ? el("small", { class: "warning" }, row.why || "too little for the footage") : null),
      el("td", { "data-head": "Costs" }, row.cost || ""),
    );
  },
};

function chanceOf(row) { return row.chance ? row.chance.value || row.chance.high : Infinity; }

// pairs holds two designs side by side.
const pairs = {
  draw() {
    const rows = answers.done.rows;
    byId("pair").hidden = rows.length < 2;
    if (rows.length < 2) return;
    for (const [id, otherwise] of [["pair-a", 0], ["pair-b", 1]]) {
      const select = byId(id);
      const held = select.selectedOptions[0] && select.selectedOptions[0].textContent;
      const order = answers.places || rows.map((_, i) => i);
      select.replaceChildren(...order.map((place) => el("option", { value: place }, rows[place].label)));
      const at = order.findIndex((place) => rows[place].label === held);
      select.selectedIndex = at >= 0 ? at : otherwise;
    }
    pairs.ask().catch(tell);
  },

  async ask() {
    if (!answers.done) return;
    const [a, b] = [+byId("pair-a").value, +byId("pair-b").value];
    const box = byId("pair-says");
    if (a === b) return box.replaceChildren(el("p", {}, "Choose two that differ."));
    const round = answers.round;
    const { answer } = await engines.ask("pair", { a, b });
    if (round !== answers.round) return;
    const rows = answers.done.rows;
    const two = [rows[a], rows[b]];
    const goal = answers.goal();
    const scale = chanceScale([...two.map((row) => row.chance), ...two.map((row) => row.doubt && { value: row.doubt.low, ...row.doubt })], goal);
    box.replaceChildren(
      el("table", { class: "answers two" }, el("tbody", {}, two.map((row) => answers.row(row, scale, goal)))),
      scale ? axis(scale) : "",
      el("ul", { class: "says" }, (answer.points || []).map((sentence) => el("li", {}, sentence))));
  },
};

// outs are the files that can be saved of a result, the same bytes as the command's.
const outs = {
  names: { html: "the report", sheet: "a sheet for a customer", json: "JSON", csv: "CSV", xlsx: "Excel workbook (XLSX)" },

  // draw offers what can be saved of a result that an engine has.
  async draw(of, box, engine) {
    const { answer } = await engine.ask("formats", { of });
    box.replaceChildren(...answer.formats.flatMap((format) => [
      format === "sheet" || (format === "html" && of === "compare") ? button(`Open ${outs.names[format]}`, () => outs.open(of, format)) : "",
      button(`Save ${outs.names[format] || format}`, () => outs.save(of, format), { class: "quiet" })]));
  },

  // bytes asks for an output. Where the worker that had the result is gone, it is
  // worked out again.
  async bytes(of, format) {
    if (of !== "compare") return studies.output(of, format);
    const asked = () => engines.ask("output", { of, format });
    const { out } = await asked().catch(async () => {
      await engines.ask("compare", { text: answers.of }, answers.parts);
      return asked();
    });
    return out.file;
  },

  fileName(of, format) {
    const base = site.name.replace(/\.toml$/i, "");
    const kind = of === "compare" ? "" : "-" + of;
    return format === "sheet" ? `${base}${kind}-sheet.html` : `${base}${kind}.${format}`;
  },

  async save(of, format) {
    try {
      save(outs.fileName(of, format), await outs.bytes(of, format), types[format]);
    } catch (err) { complain(err.message); }
  },

  async open(of, format) {
    try {
      viewer.show(textOf(await outs.bytes(of, format)), outs.fileName(of, format));
    } catch (err) { complain(err.message); }
  },
};

// viewer shows a page that the engine wrote, as it is, apart from this one.
const viewer = {
  show(html, name) {
    const dialog = byId("viewer");
    const frame = el("iframe", { sandbox: "allow-scripts allow-modals", title: name });
    frame.srcdoc = html;
    dialog.replaceChildren(el("div", { class: "buttons" }, el("strong", {}, name),
      button("Save", () => save(name, html, types.html)),
      button("Close", () => dialog.close(), { class: "main" })), frame);
    dialog.onclose = () => dialog.replaceChildren();
    dialog.showModal();
  },
};
