// The other questions: what each asks for, and the page that it gives.

const asks = {
  size: { title: "Size", says: "The fewest drives of every size and layout that hold the footage. Nothing is simulated.",
    fields: [["bays", "Bays", "number"], ["spares", "Hot spares", "number"]] },
  choose: { title: "Choose", says: "The cheapest design whose chance of losing footage meets the goal over all that is uncertain.",
    fields: [["bays", "Bays", "number"], ["spares", "Hot spares at most", "number"]] },
  vary: { title: "Vary", says: "One input, or two, over a range: PATH=VALUES, such as care.response=4 h..168 h.",
    fields: [["over", "Input and values", "path"], ["and", "A second input", "path"], ["points", "Values", "number"], ["against", "Hold the others against", "choice"], ["target", "Solve for a chance of", "text"], ["asSafeAs", "Solve to be as safe as", "choice"], ["resize", "Give each choice the drives that it needs", "check"]] },
  rank: { title: "Rank", says: "Which uncertain input matters most. The first is the figure to go and find out.",
    fields: [["choices", "Choices", "choices"], ["thorough", "Share out the variance too (takes a while)", "check"]] },
  replay: { title: "Replay", says: "Single simulated lives of one choice, hour by hour.",
    fields: [["choice", "Choice", "choice!"], ["lives", "Lives", "number"], ["onlyLosses", "Only lives in which footage is lost", "check"]] },
  lesson: { title: "Lesson", says: "Questions to predict, then see, for learners.",
    fields: [["choice", "Choice", "choice"], ["questions", "Ask too", "words", known.questions], ["withoutAnswers", "Without the answers: a sheet to hand out", "check"]] },
  plan: { title: "Plan", says: "Sheets to build one choice, hand it over and keep it alive: parts, bays, power, settings, checks, calendar.",
    fields: [["choice", "Choice", "choice!"]] },
  now: { title: "Now", says: "One array as it stands tonight: the risk hour by hour, what to do and what not. Change the state below to what you see.",
    fields: [["choice", "Choice", "choice"], ["state", "State of the array", "state"], ["drill", "Draw a bad day to practise on instead", "check"]] },
  fit: { title: "Fit", says: "A life law with its uncertainty from a fleet's own record of failures (.csv, .xlsx, .gz, .zip).",
    fields: [["record", "Record", "file"], ["until", "Watched until (date)", "text"]] },
};

const studies = {
  engine: {},  // by name: the worker that has its result
  asked: {},   // by name: what was asked last
  of: {},      // by name: what the result that is shown was asked with, {args, files}
  record: null,
  labels: [],   // of the choices of the last file in which nothing is wrong
  offered: "",  // the text whose inputs are listed

  // draw draws the panel of a question, the first time that it is wanted.
  draw(name) {
    const panel = byId(name + "-panel"), ask = asks[name];
    if (panel.firstChild) return;
    panel.append(el("h2", {}, ask.title), el("p", { class: "doc" }, ask.says),
      el("form", { id: name + "-ask", onsubmit: (event) => { event.preventDefault(); studies.run(name); } },
        ask.fields.map((field) => studies.field(name, field)),
        el("div", { class: "buttons" }, el("button", { type: "submit", class: "main" }, ask.title), button("Stop", () => engines.pool.end(name), { id: name + "-stop", hidden: true }))),
      el("p", { id: name + "-status", class: "state" }),
      el("div", { id: name + "-outs", class: "buttons" }),
      el("div", { id: name + "-page", class: "page" }));
    studies.offerChoices(name);
  },

  field(name, [key, label, kind, words]) {
    const id = `${name}-${key}`;
    if (kind === "check") return el("label", { class: "check" }, el("input", { type: "checkbox", id }), label);
    if (kind === "words") return el("fieldset", { class: "checks" }, el("legend", {}, label), words.map((word) => el("label", { class: "check" }, el("input", { type: "checkbox", value: word, name: id }), word)));
    if (kind === "choices") return el("fieldset", { class: "checks", id }, el("legend", {}, label));
    let input;
    if (kind === "state") {
      return el("div", { class: "field" }, el("label", { for: id }, label), el("textarea", { id, class: "state-file", spellcheck: "false", autocomplete: "off", wrap: "off" }),
        button("Begin with an example for this choice", () => studies.example(), {}));
    }
    if (kind.startsWith("choice")) input = el("select", { id });
    else if (kind === "file") input = el("input", { type: "file", id, accept: ".csv,.tsv,.txt,.xlsx,.gz,.zip", onchange: async () => {
      try {
        const [file] = input.files;
        if (file) studies.record = { name: file.name, bytes: await bytesOfFile(file) };
      } catch (err) { complain(err.message); }
    } });
    else input = el("input", { type: "text", id, autocomplete: "off", inputmode: kind === "number" ? "numeric" : null, list: kind === "path" ? "paths" : null, spellcheck: "false" });
    return el("div", { class: "field" }, el("label", { for: id }, label), input);
  },

  // hear keeps what can be chosen up to date with the file.
  hear(answer) {
    if (answer.errors && answer.errors.length) return;
    studies.labels = (answer.sizes || []).map((size) => size.label);
    for (const name of Object.keys(asks)) if (byId(name + "-ask")) studies.offerChoices(name);
    for (const name of Object.keys(studies.of)) {
      if (name !== "fit") byId(name + "-panel").classList.toggle("stale", studies.of[name].args.text !== site.text);
    }
  },

  // offerChoices lists the choices of the file where a question is about some.
  offerChoices(name) {
    const { labels } = studies;
    for (const [key, , kind] of asks[name].fields) {
      const box = byId(`${name}-${key}`);
      if (kind.startsWith("choice") && kind !== "choices") {
        const held = box.value;
        box.replaceChildren(...(kind === "choice!" ? [] : [el("option", { value: "" }, "left to the program")]), ...labels.map((label) => el("option", {}, label)));
        if (labels.includes(held)) box.value = held;
      } else if (kind === "choices") {
        const off = new Set([...box.querySelectorAll("input:not(:checked)")].map((input) => input.value));
        box.replaceChildren(box.firstChild, ...labels.map((label) => {
          const input = el("input", { type: "checkbox", value: label });
          input.checked = !off.has(label);
          return el("label", { class: "check" }, input, label);
        }));
      }
    }
  },

  // offer lists the inputs that can be varied, once somebody wants to.
  async offer() {
    if (studies.offered === site.text) return;
    studies.offered = site.text;
    const { answer } = await engines.ask("paths", { text: site.text }, site.named());
    byId("paths").replaceChildren(...(answer.paths || []).map((path) => el("option", { value: path + "=" })));
  },

  // example fills in a state to change.
  async example() {
    const { answer } = await engines.ask("example", { text: site.text, choice: byId("now-choice").value || null }, site.named());
    if (answer.errors) return studies.state("now", answer.errors.map((error) => error.text).join("\n"), true);
    byId("now-state").value = answer.state;
  },

  // args reads what a question asks for.
  args(name) {
    const args = { text: site.text };
    for (const [key, , kind] of asks[name].fields) {
      const box = byId(`${name}-${key}`);
      if (kind === "check") { if (box.checked) args[key] = true; }
      else if (kind === "words") args[key] = [...document.querySelectorAll(`[name="${name}-${key}"]:checked`)].map((input) => input.value);
      else if (kind === "choices") {
        const all = [...box.querySelectorAll("input")];
        const on = all.filter((input) => input.checked);
        if (on.length && on.length < all.length) args[key] = on.map((input) => input.value);
      } else if (kind === "file") continue;
      else if (box.value.trim() !== "") args[key] = box.value.trim();
    }
    return args;
  },

  async run(name) {
    studies.draw(name);
    if (name === "fit" && !studies.record) return studies.state(name, "Choose a record, or drop one on this page.");
    const args = studies.args(name);
    const files = name === "fit" ? { record: studies.record.bytes } : site.named();
    if (name === "fit") args.name = studies.record.name;
    studies.asked[name] = args;
    engines.pool.end(name);
    byId(name + "-stop").hidden = false;
    studies.state(name, "Working…");
    speak("Working.");
    try {
      const { answer, engine } = await engines.pool.do(name, name, args, files, (tell) => {
        if (tell.share !== undefined && studies.asked[name] === args) studies.state(name, `Working: ${Math.round(tell.share * 100)} %`);
      });
      if (studies.asked[name] !== args) return;
      if (answer.errors && answer.errors.length) return studies.state(name, answer.errors.map((error) => error.text).join("\n"), true);
      studies.of[name] = { args, files };
      studies.engine[name] = engine;
      byId(name + "-panel").classList.remove("stale");
      const html = await studies.output(name, "html");
      const frame = el("iframe", { sandbox: "allow-scripts allow-modals", title: asks[name].title });
      frame.srcdoc = textOf(html);
      byId(name + "-page").replaceChildren(frame);
      await outs.draw(name, byId(name + "-outs"), studies.engine[name]);
      if (answer.text) byId(name + "-outs").append(button("Put these into the site", () => site.read(answer.text)));
      byId(name + "-outs").append(...(answer.laws || []).map(studies.giveLaw));
      studies.state(name, "");
      speak((answer.points || [])[0] || asks[name].title + " is done.");
    } catch (err) {
      if (studies.asked[name] !== args) return;
      studies.state(name, err.message === stopped ? "Stopped." : `It ended: ${err.message}. The site is kept.`, err.message !== stopped);
    } finally {
      if (studies.asked[name] === args) byId(name + "-stop").hidden = true;
    }
  },

  // giveLaw offers to put the law that was fitted to a label into a drive of the site: the
  // one of that name is chosen first.
  giveLaw(law) {
    const drive = el("select", {});
    const offer = () => {
      const held = drive.value;
      const drives = studies.drives();
      drive.replaceChildren(...drives.map(({ path, label }) => el("option", { value: path }, label)));
      const first = drives.find(({ path }) => path === held) || drives.find(({ label }) => label === law.label);
      if (first) drive.value = first.path;
    };
    offer();
    drive.addEventListener("focus", offer);
    return el("span", { class: "law-of" }, el("label", {}, `The life of ${law.label} is that of `, drive), " ",
      button("Put it into the site", async () => {
        if (!drive.value) return complain("The site has no drives yet. Add one, and its life can be this.");
        const { label } = studies.drives().find(({ path }) => path === drive.value) || {};
        await site.change({ op: "set", path: drive.value + ".life", value: law.life });
        speak(`The life of ${label} is set. Undo brings back what was there.`);
      }));
  },

  // drives returns the drives of the site as the form has them.
  drives() {
    const section = site.answer && site.answer.form && site.answer.form.sections.find(({ path }) => path === "drives");
    return section && section.items || [];
  },

  // output asks the worker that has the result; where that is gone, another works it
  // out again.
  async output(name, format) {
    const engine = studies.engine[name];
    if (engine && !engine.dead) {
      const { answer, out } = await engine.ask("output", { of: name, format });
      if (out && out.file) return out.file;
    }
    const { args, files } = studies.of[name];
    const again = await engines.pool.do(name, name, args, files);
    studies.engine[name] = again.engine;
    return (await again.engine.ask("output", { of: name, format })).out.file;
  },

  state(name, text, wrong = false) {
    const box = byId(name + "-status");
    box.textContent = text;
    box.classList.toggle("error", wrong);
    if (wrong) speak(text);
  },
};
