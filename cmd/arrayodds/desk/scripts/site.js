// The site file that is worked on: its text is all there is to it. The form is made
// of the text, and what is done in the form is done to the text.

const site = {
  text: "",
  name: "site.toml", // to save it as
  files: {},         // that it names: schedules and a logo
  saved: "",
  past: [], future: [],
  form: null, errors: [],
  queue: Promise.resolve(),
  heard: [], // called with the answer to each reading

  // read takes a text as it stands.
  read(text, how = {}) { return this.next("read", () => ({ text }), how); },

  // change does one change to the text: {op, path, value}.
  change(change, how = {}) { return this.next("edit", () => ({ text: this.text, change }), { ...how, of: change.op + " " + change.path }); },

  // next asks the engine, one request after the other, since each is about the text
  // that the one before it left.
  next(op, args, how) {
    const done = this.queue.then(async () => {
      const asked = args();
      const { answer } = await engines.ask(op, asked, this.files);
      const text = answer.text !== undefined ? answer.text : asked.text;
      if (text !== this.text && !how.undoing) this.remember(how);
      this.text = text;
      this.form = answer.form || this.form;
      this.errors = answer.errors || [];
      this.answer = answer;
      for (const hear of this.heard) hear(answer, how);
      this.buttons();
    });
    this.queue = done.catch((err) => complain(`The engine could not take that: ${err.message}. What you typed is kept.`));
    return done;
  },

  // remember keeps the text to come back to. Keystrokes in one field within a moment
  // are one step.
  remember(how) {
    const now = Date.now();
    const same = how.of && how.of === this.lastOf && now - this.lastAt < 1500;
    this.lastOf = how.of; this.lastAt = now;
    if (!same) this.past.push(this.text);
    if (this.past.length > 500) this.past.shift();
    this.future = [];
  },

  back(from, to) {
    if (!from.length) return;
    const text = from.pop();
    to.push(this.text);
    this.lastOf = "";
    this.read(text, { undoing: true });
  },
  undo() { this.back(this.past, this.future); },
  redo() { this.back(this.future, this.past); },

  get changed() { return this.text !== this.saved; },

  buttons() {
    byId("undo").disabled = !this.past.length;
    byId("redo").disabled = !this.future.length;
    byId("save-site").textContent = this.changed ? "Save site file" : "Site file saved";
    document.title = (this.answer && this.answer.title || "Arrayodds desk") + (this.changed ? " (not saved)" : "");
  },

  // open begins with another file.
  async open(text, name, files = {}) {
    this.files = files;
    this.name = name;
    this.past = []; this.future = [];
    this.lastOf = "";
    this.text = this.saved = text;
    await this.read(text, { opened: true, undoing: true });
  },
};
