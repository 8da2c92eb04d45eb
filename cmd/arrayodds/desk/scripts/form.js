// The form: the fields of the site file, as the engine gives them from its own table
// of keys. Nothing here knows a key.

const form = {
  shape: "",
  fields: new Map(), // by path: what of a field changes
  open: new Set(["section ", "section cameras"]), // paths of the sections and items that are unfolded
  focus: "",         // of what was added, to go there once it is drawn
  drawing: 0,        // counts how often it was drawn

  // hear draws the form of a text that was read. What somebody slides stays where it is: its
  // first step may put a section into the file, for which the form is drawn anew later.
  hear(answer, how = {}) {
    if (!answer.form) return;
    const shape = JSON.stringify(answer.form.sections.map(form.shapeOf));
    if (shape !== form.shape && !(how.slid && slider.shown)) {
      form.shape = shape;
      form.draw(answer.form);
    }
    for (const section of answer.form.sections) form.saySection(section);
    form.listErrors(answer.errors || []);
  },

  // turns returns what draws the form anew, in parts. They do nothing once it was drawn
  // otherwise.
  turns(answer) {
    if (!answer.form) return [];
    const { sections } = answer.form;
    let drawing;
    const still = (act) => () => { if (form.drawing === drawing) act(); };
    return [
      () => {
        form.shape = JSON.stringify(sections.map(form.shapeOf));
        form.clear();
        drawing = form.drawing;
      },
      ...sections.map((section) => still(() => {
        byId("form").append(form.section(section));
        form.saySection(section);
      })),
      still(() => form.listErrors(answer.errors || [])),
    ];
  },

  // clear takes away what is drawn.
  clear() {
    form.drawing++;
    form.fields.clear();
    byId("form").replaceChildren();
  },

  // shapeOf is what a section must be drawn anew for.
  shapeOf(section) {
    const of = (field) => [field.path, field.kind, field.form, field.excluded ? 1 : 0, field.words, !!field.range, field.given && !!field.fields, (field.fields || []).map(of)];
    return [section.path, section.absent, section.source && [section.source.given, !(section.items || []).length], (section.items || []).map((item) => [item.path, (item.fields || []).map(of), (item.sections || []).map(form.shapeOf)])];
  },

  // flat lists fields with those that are in them, sections of items too.
  flat(fields) { return (fields || []).flatMap((field) => [field, ...form.flat(field.fields)]); },

  draw(made) {
    const was = document.activeElement, held = was && was.dataset && was.dataset.path;
    const typed = was && was.tagName === "INPUT" ? [was.value, was.selectionStart, was.selectionEnd] : null;
    form.clear();
    byId("form").append(...made.sections.map((section) => form.section(section)));
    slider.keep(was);
    const to = form.focus || held;
    if (to) {
      const field = document.querySelector(`#form [data-path="${CSS.escape(to)}"]`);
      if (field) {
        field.focus();
        // What somebody is typing stays as it is.
        if (typed && to === held && field.tagName === "INPUT") {
          field.value = typed[0];
          field.setSelectionRange(typed[1], typed[2]);
        }
        if (to === form.focus) form.focus = "";
      }
    }
  },

  // fold makes what can be unfolded; its contents are made when it is.
  fold(path, summary, body, props = {}) {
    const details = el("details", props, summary);
    const fill = () => {
      if (details.open && details.children.length === 1) details.append(...body());
      details.open ? form.open.add(path) : form.open.delete(path);
    };
    details.open = form.open.has(path);
    if (details.open) details.append(...body());
    details.addEventListener("toggle", () => {
      const empty = details.children.length === 1;
      fill();
      if (details.open && empty && site.answer) form.hear(site.answer);
    });
    return details;
  },

  section(section) {
    const items = section.items || [];
    const title = el(section.path.includes(".") ? "h3" : "h2", {}, section.title);
    const count = section.repeats && items.length ? el("span", { class: "count" }, String(items.length)) : null;
    const summary = el("summary", {}, title, count, el("span", { class: "faults", "data-under": section.path }));
    return form.fold("section " + section.path, summary, () => {
      const parts = [];
      if (section.doc) parts.push(el("p", { class: "doc" }, section.doc));
      if (section.repeats) {
        parts.push(...items.map((item, i) => form.item(section, item, i)));
        if (section.source && (section.source.given || !items.length)) parts.push(form.field(section.source));
        if (!section.source || !section.source.given) parts.push(button("Add " + (section.one || "another"), () => form.add(section), { class: "add", "data-path": section.path + "#add" }));
      } else if (!items.length) {
        parts.push(el("p", { class: "doc" }, section.else ? "Left out: " + section.else + "." : "Left out: as the site has it."), button("Add this", () => form.add(section), { class: "add", "data-path": section.path + "#add" }));
      } else {
        for (const item of items) {
          parts.push(...item.fields.map((field) => form.field(field)), ...(item.sections || []).map((inner) => form.section(inner)));
        }
        if (!section.absent && section.path && !section.required) parts.push(button("Leave all of this out", () => form.change("remove", section.path), { class: "quiet" }));
      }
      return parts;
    }, { class: "section" });
  },

  item(section, item, i) {
    const to = (n) => `${section.path}.${n}`;
    // The fold goes with the item, and the focus with the button.
    const move = (way, n) => {
      if (n < 0 || n >= section.items.length) return;
      const [here, there] = [form.open.has(item.path), form.open.has(to(n))];
      there ? form.open.add(item.path) : form.open.delete(item.path);
      here ? form.open.add(to(n)) : form.open.delete(to(n));
      form.focus = to(n) + "#" + way;
      form.change("move", item.path, way);
    };
    const summary = el("summary", {}, el("span", { class: "label", "data-label": item.path }, item.label), el("span", { class: "faults", "data-under": item.path }));
    return form.fold(item.path, summary, () => [
      el("div", { class: "buttons", role: "group", "aria-label": "This item" },
        button("Copy", () => { form.open.add(to(i + 1)); form.focus = to(i + 1) + ".label"; form.change("copy", item.path); }),
        button("Up", () => move("up", i - 1), { "data-path": item.path + "#up" }),
        button("Down", () => move("down", i + 1), { "data-path": item.path + "#down" }),
        button("Remove", () => { form.focus = section.path + "#add"; form.change("remove", item.path); })),
      ...item.fields.map((field) => form.field(field)),
      ...(item.sections || []).map((inner) => form.section(inner)),
    ], { class: "item" });
  },

  add(section) {
    form.open.add("section " + section.path);
    const n = (section.items || []).length;
    if (section.repeats) form.open.add(`${section.path}.${n}`);
    form.focus = section.repeats ? `${section.path}.${n}.label` : "";
    form.change("add", section.path);
  },

  // change does one change, and not another before the form shows it: paths are places.
  change(op, path, value) {
    if (op !== "set" && form.changing) return;
    form.changing = true;
    site.change({ op, path, value }).finally(() => { form.changing = false; });
    if (op === "remove") speak("Removed. Undo brings it back.");
  },

  set: settle(60, (path, value) => site.change({ op: "set", path, value })),

  field(field) {
    const id = "f-" + field.path;
    const error = el("p", { class: "error", id: id + "-error" });
    const tools = el("span", { class: "tools" });
    const box = el("div", { class: "field", "data-field": field.path });
    let input;
    const described = `${id}-doc ${id}-takes ${id}-error`;
    const common = { id, "data-path": field.path, "aria-describedby": described, autocomplete: "off", spellcheck: "false" };
    if (field.excluded) {
      box.append(el("p", { class: "excluded" }, `${field.label}: ${field.excluded}`));
      return box;
    }
    if (field.forms) return form.law(field, box, id, error, tools);
    if (field.fields) return form.group(field, box, error);
    if (field.range) return form.uncertainField(field, box, error, tools);
    if (field.kind === "bool" || (field.kind === "word" && field.words && field.words.length && !field.other)) {
      input = el("select", { ...common, onchange: () => input.value === "" ? form.change("remove", field.path) : form.change("set", field.path, input.value) });
    } else {
      input = el("input", { ...common, type: "text", ...counts(field), inputmode: { integer: "numeric", number: "decimal" }[field.kind], oninput: () => {
        sayUnit(form.fields.get(field.path));
        // An empty field is a key that is left out, where it may be.
        if (input.value.trim() === "" && !field.required) form.drop(field.path);
        else form.set(field.path, withUnit(form.fields.get(field.path).field, input.value));
      } });
      if (field.words && field.words.length) {
        input.setAttribute("list", id + "-words");
        box.append(el("datalist", { id: id + "-words" }, field.words.map((word) => el("option", { value: word }))));
      }
    }
    const unit = el("span", { class: "unit" });
    box.prepend(el("label", { for: id }, field.label, unit, field.required ? el("span", { class: "must" }, " needed") : null), tools);
    box.append(input);
    box.append(el("p", { class: "doc", id: id + "-doc" }, field.doc || ""), el("p", { class: "takes", id: id + "-takes" }, field.takes || ""), error);
    form.fields.set(field.path, { box, input, unit, error, tools, field });
    return box;
  },

  // leftOut says what holds while a field is empty.
  leftOut(field) { return field.default ? `left out: ${field.default}` : field.absent ? `left out: ${field.absent}` : field.required ? "" : "left out"; },

  drop: settle(60, (path) => site.change({ op: "remove", path })),

  // uncertainField is a value that is given by its three ends.
  uncertainField(field, box, error, tools) {
    const id = "f-" + field.path;
    const { row, ends } = form.ends(field, id);
    box.append(el("span", { class: "name", id: id + "-name" }, field.label), tools, row,
      el("p", { class: "doc" }, field.doc || ""), el("p", { class: "takes", id: id + "-takes" }, field.takes || ""), error);
    form.fields.set(field.path, { box, ends, error, tools, field });
    return box;
  },

  // ends are fields for the low, the likely and the high end of a value.
  ends(field, id) {
    const row = el("div", { class: "range", role: "group", "aria-labelledby": id + "-name", "aria-describedby": id + "-takes " + id + "-error" });
    const ends = {};
    for (const end of ["low", "likely", "high"]) {
      ends[end] = el("input", { type: "text", value: field.range[end] || "", "data-path": end === "likely" && !field.forms ? field.path : field.path + "#" + end, autocomplete: "off", spellcheck: "false",
        oninput: () => form.set(field.path, rangeOf(ends.low.value, ends.likely.value, ends.high.value)) });
      row.append(el("label", {}, end, ends[end]));
    }
    return { row, ends };
  },

  // law is a law of time or of life: which form it has, and the fields of that.
  law(field, box, id, error, tools) {
    const select = el("select", { id, "data-path": field.path, "aria-describedby": id + "-takes " + id + "-error", onchange: () => {
      if (select.value === "") return form.change("remove", field.path);
      form.change("set", field.path, field.forms[select.value].text);
    } });
    if (!field.required) select.append(el("option", { value: "" }, form.leftOut(field)));
    field.forms.forEach((f, i) => select.append(el("option", { value: i }, f.title)));
    box.append(el("label", { for: id, id: id + "-name" }, field.label, field.required ? el("span", { class: "must" }, " needed") : null), tools, select);
    let ends;
    if (field.range) {
      const made = form.ends(field, id);
      ends = made.ends;
      box.append(made.row);
    } else if (field.fields && field.fields.length) {
      box.append(el("div", { class: "inner" }, field.fields.map((inner) => form.field(inner))));
    } else if (field.given) { // a law that is one value
      const input = el("input", { type: "text", value: field.text, "data-path": field.path + "#text", autocomplete: "off", "aria-label": field.label + ", value", oninput: () => form.set(field.path, input.value) });
      box.append(input);
      tools.input = input;
    }
    box.append(el("p", { class: "takes", id: id + "-takes" }, field.doc || ""), error);
    box.classList.add("law");
    form.fields.set(field.path, { box, input: select, ends, error, tools, field });
    return box;
  },

  // group is a table within a table.
  group(field, box, error) {
    const fieldset = el("fieldset", {}, el("legend", {}, field.label));
    if (field.doc) fieldset.append(el("p", { class: "takes" }, field.doc));
    if (field.given) {
      fieldset.append(...field.fields.map((inner) => form.field(inner)));
      if (!field.required) fieldset.append(button("Leave this out", () => form.change("remove", field.path), { class: "quiet" }));
    } else {
      fieldset.append(button("Add this", () => form.change("add", field.path), { class: "add", "data-path": field.path }));
    }
    fieldset.append(error);
    box.append(fieldset);
    form.fields.set(field.path, { box, error, field });
    return box;
  },

  // say brings a field that is drawn up to date.
  say(field) {
    const drawn = form.fields.get(field.path);
    if (!drawn) return;
    drawn.field = field;
    drawn.box.classList.toggle("wrong", !!field.error);
    drawn.box.classList.toggle("given", !!field.given);
    drawn.error.textContent = field.error || "";
    if (drawn.ends && field.range) {
      for (const [end, at] of Object.entries(drawn.ends)) {
        at.setAttribute("aria-invalid", field.error ? "true" : "false");
        if (at !== document.activeElement) at.value = field.range[end] || "";
      }
      if (!drawn.input) return form.tools(drawn);
    }
    const input = drawn.input;
    if (!input) return;
    input.setAttribute("aria-invalid", field.error ? "true" : "false");
    if (field.forms) {
      const chosen = field.given ? String(field.form ?? "") : "";
      if (input.value !== chosen) input.value = chosen;
      const text = drawn.tools.input;
      if (text && text !== document.activeElement) text.value = field.text;
    } else if (input.tagName === "SELECT") {
      form.options(input, field);
    } else {
      if (input !== document.activeElement && input.value !== field.text) input.value = field.given ? field.text : "";
      input.placeholder = field.given ? "" : form.leftOut(field);
      if (field.kind === "integer") field.number === undefined ? input.removeAttribute("aria-valuenow") : input.setAttribute("aria-valuenow", field.number);
      sayUnit(form.fields.get(field.path));
    }
    form.tools(drawn);
  },

  options(select, field) {
    const words = field.kind === "bool" ? ["true", "false"] : field.words;
    const all = [...(field.required ? [] : [["", form.leftOut(field)]]), ...words.map((word) => [word, field.kind === "bool" ? { true: "yes", false: "no" }[word] : word])];
    if (field.given && !words.includes(field.text)) all.push([field.text, field.text]);
    const now = JSON.stringify(all);
    if (select.dataset.options !== now) {
      select.dataset.options = now;
      select.replaceChildren(...all.map(([value, text]) => el("option", { value }, text)));
    }
    select.value = field.given ? field.text : "";
  },

  // tools are what else can be done with a field: a slider, a range, the default again.
  tools(drawn) {
    const { field, tools } = drawn;
    const wanted = [];
    if (field.number !== undefined && field.number !== null && !field.error) {
      wanted.push(["slide", "Slide", () => slider.open(drawn.box, drawn.field), `Slide ${field.label} and see what it does`]);
      if (!field.range && field.mayRange !== false) wanted.push(["range", "Uncertain", () => form.uncertain(drawn.field), `Uncertain: give ${field.label} as a range`]);
    }
    if (field.range) wanted.push(["sure", "Certain", () => form.change("set", field.path, field.range.likely), `Certain: give ${field.label} as one value`]);
    const now = wanted.map(([key]) => key).join();
    if (tools.dataset.has === now) return;
    tools.dataset.has = now;
    tools.replaceChildren(...wanted.map(([, text, act, label]) => button(text, act, { class: "quiet", "aria-label": label })));
  },

  uncertain(field) {
    const text = field.text || field.default || "";
    form.change("set", field.path, rangeOf(text, text, text));
  },

  saySection(section) {
    if (section.source) form.say(section.source);
    for (const item of section.items || []) {
      form.sayItem(item);
      for (const field of form.flat(item.fields)) form.say(field);
    }
  },

  sayItem(item) {
    const label = document.querySelector(`#form [data-label="${CSS.escape(item.path)}"]`);
    if (label && label.textContent !== item.label) label.textContent = item.label;
    for (const inner of item.sections || []) {
      for (const each of inner.items || []) {
        for (const field of form.flat(each.fields)) form.say(field);
      }
    }
  },

  // listErrors shows what is wrong, all of it, and where.
  listErrors(errors) {
    const list = byId("errors");
    list.hidden = !errors.length;
    const most = 20;
    list.replaceChildren(
      el("h2", {}, errors.length === 1 ? "One thing is wrong" : `${errors.length} things are wrong`),
      el("ul", {}, errors.slice(0, most).map((error) => el("li", {}, button(error.text, () => form.goTo(error), { class: "link" })))),
      ...(errors.length > most ? [el("p", {}, `and ${errors.length - most} more`)] : []));
    for (const mark of document.querySelectorAll("#form .faults")) {
      const n = errors.filter((error) => error.path && under(error.path, mark.dataset.under)).length;
      mark.textContent = n ? `${n} wrong` : "";
    }
  },

  // goTo leads to the field that an error is about, else to its line in the text.
  goTo(error) {
    if (error.path) {
      const parts = error.path.split(".");
      form.open.add("section " + parts[0]);
      form.open.add("section ");
      for (let i = 1; i <= parts.length; i++) { form.open.add(parts.slice(0, i).join(".")); form.open.add("section " + parts.slice(0, i).join(".")); }
      form.draw(site.answer.form);
      form.hear(site.answer);
      const field = document.querySelector(`#form [data-path="${CSS.escape(error.path)}"]`);
      if (field) {
        editor.show(false);
        field.focus();
        return field.scrollIntoView({ block: "center" });
      }
    }
    editor.show(true);
    editor.goTo(error.line || 1);
  },
};

function under(path, top) { return top === "" ? !path.includes(".") : path === top || path.startsWith(top + "."); }

