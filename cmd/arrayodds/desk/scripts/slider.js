// A slider for any number of the file, with the curve of the chances around it.

const slider = {
  box: null,

  async open(box, field) {
    if (slider.box) {
      const same = slider.path === field.path;
      slider.close();
      if (same) return;
    }
    slider.path = field.path;
    slider.box = el("div", { class: "slider" }, el("p", { class: "doc" }, "Working out what this input does…"));
    box.append(slider.box);
    slider.text = "";
    slider.curve();
  },

  close() {
    if (slider.box) slider.box.remove();
    slider.box = null;
    slider.path = "";
  },

  // curve draws the chances at values around the present one.
  async curve() {
    const { box, path } = slider;
    if (!box || !box.isConnected) return slider.close();
    const text = site.text, round = slider.round = (slider.round || 0) + 1;
    try {
      const { answer } = await engines.pool.do("slider", "curve", { text, path, points: 9 }, site.files);
      if (slider.box !== box || round !== slider.round) return;
      if (answer.errors && answer.errors.length) return box.replaceChildren(el("p", { class: "doc" }, answer.errors[0].text));
      slider.draw(answer);
    } catch (err) {
      if (slider.box === box && err.message !== stopped) box.replaceChildren(el("p", { class: "error" }, err.message));
    }
  },

  draw(answer) {
    const { box, path } = slider;
    const values = answer.values;
    const present = answer.present;
    const name = box.closest(".field").querySelector("label, legend, .name").firstChild.textContent;
    const range = el("input", { type: "range", min: 0, max: values.length - 1, step: "any", value: present, "aria-label": `Slide ${name}`, "aria-valuetext": values[Math.round(present)].text });
    const shown = el("output", {}, values[Math.round(present)].text);
    const send = settle(80, (value) => site.change({ op: "set", path, value }, { slid: true }));
    range.addEventListener("input", () => {
      const at = values[Math.round(+range.value)];
      shown.textContent = at.text;
      range.setAttribute("aria-valuetext", at.text);
      send(at.set || at.text);
    });
    range.addEventListener("change", () => { range.value = Math.round(+range.value); });
    box.replaceChildren(slider.picture(answer), range,
      el("div", { class: "ends" }, el("span", {}, values[0].text), shown, el("span", {}, values[values.length - 1].text)),
      el("p", { class: "doc" }, "Chance of losing footage, each line one choice, around the present value; coarse, on a log scale, 95 % intervals as whiskers."),
      button("Close", () => slider.close(), { class: "quiet" }));
  },

  picture({ values, choices }) {
    const w = 320, h = 150, left = 6, right = 6, top = 8, foot = 8;
    const scale = chanceScale(choices.flatMap((choice) => choice.chances), answers.goal());
    const picture = svg("svg", { viewBox: `0 0 ${w} ${h}`, class: "curve", role: "img", "aria-label": slider.inWords(values, choices) });
    if (!scale) return picture;
    const px = (i) => left + i / Math.max(1, values.length - 1) * (w - left - right);
    const py = (chance) => top + (1 - scale.at(chance)) * (h - top - foot);
    for (const d of decades(scale, 4)) {
      const y = top + (1 - (d - scale.from) / (scale.to - scale.from)) * (h - top - foot);
      picture.append(svg("line", { x1: left, x2: w - right, y1: y, y2: y, class: "tick" }), svg("text", { x: left, y: y - 2, class: "name" }, oddsOf(d)));
    }
    if (answers.goal()) picture.append(svg("line", { x1: left, x2: w - right, y1: py(answers.goal()), y2: py(answers.goal()), class: "goal" }));
    choices.slice(0, 8).forEach((choice, k) => {
      const points = choice.chances.map((c, i) => c && c.value > 0 ? [px(i), py(c.value), py(c.low > 0 ? c.low : c.value), py(c.high)] : null);
      const path = points.map((p, i) => p ? `${i && points[i - 1] ? "L" : "M"}${p[0].toFixed(1)} ${p[1].toFixed(1)}` : "").join("");
      picture.append(svg("path", { d: path, class: "line line" + k }));
      for (const p of points) if (p) picture.append(svg("line", { x1: p[0], x2: p[0], y1: p[2], y2: p[3], class: "bar line" + k }));
    });
    return picture;
  },

  inWords(values, choices) {
    const said = choices.slice(0, 8).map((choice) => {
      const ends = [choice.chances[0], choice.chances[choice.chances.length - 1]];
      return `${choice.label}: ${ends.map((c) => c && c.value > 0 ? "1 in " + Math.round(1 / c.value).toLocaleString("en") : "not seen").join(" to ")}`;
    });
    return `From ${values[0].text} to ${values[values.length - 1].text}. ${said.join(". ")}.`;
  },
};
