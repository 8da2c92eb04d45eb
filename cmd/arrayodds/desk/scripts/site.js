// The site file that is worked on: its text is all there is to it. The form is made
// of the text, and what is done in the form is done to the text.

const site = {
  text: "",
  name: "site.toml", // to save it as
  files: {},         // that it names: schedules and a logo
  saved: "",
  past: [], future: [],
  answer: null, errors: [], // to the last reading
  queue: Promise.resolve(),
  heard: [], // called with the answer to each reading

  // read takes a text as it stands.
  read(text, how = {}) { return this.next("read", () => ({ text }), how); },

  // change does one change to the text: {op, path, value}.
  change(change, how = {}) { return this.next("edit", () => ({ text: this.text, change }), { ...how, of: change.op === "set" ? "set " + change.path : "" }); },

  // next asks the engine, one request after the other, since each is about the text
  // that the one before it left.
  next(op, args, how) {
    const done = this.queue.then(async () => {
      const asked = args();
      if (op === "read") this.become(asked.text, how); // typed, whatever the engine says of it
      const { answer } = await engines.ask(op, asked, this.named(asked.change && asked.change.value));
      if (op === "edit" && answer.text === undefined) { // there is no such change
        complain((answer.errors || []).map((error) => error.text).join(" "));
        if (this.answer) for (const hear of [form.hear, editor.hear]) hear(this.answer, how);
        return;
      }
      if (op === "edit") this.become(answer.text, how);
      return how.opened ? this.takeInTurns(answer, how) : this.take(answer, how);
    });
    this.queue = done.catch((err) => complain(`The engine could not take that: ${err.message}. The site is kept.`));
    return this.queue;
  },

  // take takes the answer to a reading.
  take(answer, how) {
    this.errors = answer.errors || [];
    this.answer = answer;
    for (const hear of this.heard) hear(answer, how);
    this.buttons();
  },

  // takeInTurns does so of a file that is opened: figures first, then the form, and pauses
  // between its parts, as all of it is drawn anew.
  async takeInTurns(answer, how) {
    this.errors = answer.errors || [];
    this.answer = answer;
    await showDesk(!!(answer.sizes || []).length);
    answers.hear(answer, how);
    await answers.reveal();
    await inTurns(this.heard.filter((hear) => hear !== answers.hear).flatMap((hear) => hear === form.hear ? form.turns(answer) : () => hear(answer, how)));
    this.buttons();
  },

  become(text, how) {
    if (text !== this.text && !how.undoing) this.remember(how);
    this.text = text;
  },

  // named returns the files that the text may name: others are not carried about.
  // also is text that is to go into it.
  named(also = "") { return Object.fromEntries(Object.entries(this.files).filter(([name]) => this.text.includes(name) || also.includes(name))); },

  // remember keeps the text to come back to. Keystrokes in one field within a moment
  // are one step.
  remember(how) {
    const now = Date.now();
    const same = how.of && how.of === this.lastOf && now - this.lastAt < 1500;
    this.lastOf = how.of; this.lastAt = now;
    if (!same) this.past.push(this.text);
    for (let size = this.past.reduce((sum, text) => sum + text.length, 0); size > 32e6 || this.past.length > 500;) size -= this.past.shift().length;
    this.future = [];
  },

  back(from, to) {
    return this.next("read", () => {
      this.lastOf = "";
      if (!this[from].length) return { text: this.text };
      this[to].push(this.text);
      return { text: this[from].pop() };
    }, { undoing: true });
  },
  undo() { return this.back("past", "future"); },
  redo() { return this.back("future", "past"); },

  get changed() { return this.text !== this.saved; },

  buttons() {
    byId("undo").disabled = !this.past.length;
    byId("redo").disabled = !this.future.length;
    byId("save-site").textContent = this.changed ? "Save site file" : "Site file saved";
    document.title = (this.answer && this.answer.title || "Arrayodds desk") + (this.changed ? " (not saved)" : "");
  },

  // open begins with another file. What there is to show of it first spares the engine
  // the reading.
  async open(text, name, files = {}, first = null) {
    this.files = files;
    this.name = name;
    this.past = []; this.future = [];
    this.lastOf = "";
    this.text = this.saved = text;
    answers.state("Reading the file…");
    if (location.hash.startsWith("#site=")) history.replaceState(null, "", location.href.split("#")[0]);
    if (first) return this.queue = this.takeInTurns(first.read, { opened: true, figures: first.figures || [] });
    await this.read(text, { opened: true, undoing: true });
  },
};
