// A slider for any number of the file, with the curve of the chances around it.

const slider = {
  box: null,   // where it stands, below its field
  path: "",
  text: "",    // of the file that the curve is of, but for the value that was slid
  round: 0,

  open(box, field) {
    const same = slider.box && slider.path === field.path;
    slider.close();
    if (same) return;
    slider.path = field.path;
    slider.within = field.range ? field.path + ".likely" : field.path; // what is set
    slider.box = el("div", { class: "slider" }, el("p", { class: "doc" }, "Working out what this input does…"));
    box.append(slider.box);
    slider.curve();
  },

  close() {
    if (slider.box) slider.box.remove();
    slider.box = null;
    slider.path = "";
  },

  // shown reports whether it stands in the form.
  get shown() { return !!slider.box && slider.box.isConnected; },

  // keep puts it below its field again where the form was drawn anew, with the focus that
  // it had.
  keep(focused) {
    if (!slider.box) return;
    const field = form.fields.get(slider.path);
    if (!field) return slider.close();
    field.box.append(slider.box);
    if (slider.box.contains(focused)) focused.focus();
  },

  // hear draws the curve anew where something else was changed, once the answer to that
  // is there.
  hear() {
    if (slider.box && !slider.slid) slider.curve();
    slider.slid = false;
  },

  // curve asks for the chances at values around the present one.
  async curve() {
    const { box, path } = slider;
    if (!box.isConnected) return slider.close();
    const round = ++slider.round;
    try {
      const { answer } = await engines.pool.do("slider", "curve", { text: site.text, path, points: 9 }, site.named());
      if (slider.box !== box || round !== slider.round) return;
      if (answer.errors && answer.errors.length) return box.replaceChildren(el("p", { class: "doc" }, answer.errors.map((error) => error.text).join(" ")));
      slider.draw(answer);
    } catch (err) {
      if (slider.box === box && err.message !== stopped) box.replaceChildren(el("p", { class: "error" }, err.message));
    }
  },

  // places returns where values stand, 0 to 1.
  places({ values, log }) {
    const at = values.map(({ number }) => log ? Math.log(number) : number);
    return at.map((x) => (x - at[0]) / (at[at.length - 1] - at[0]));
  },

  draw(answer) {
    const { box } = slider;
    const places = slider.places(answer);
    const own = answer.values.findIndex(({ text }) => text === answer.ownText);
    const present = own < 0 ? Math.floor(answer.values.length / 2) : own;
    // The slider goes from value to value, at even steps, so that arrow keys do too.
    const range = el("input", { type: "range", min: 0, max: answer.values.length - 1, step: 1, value: present, "aria-label": `Slide ${answer.called}`, "aria-valuetext": answer.values[present].text });
    const shown = el("output", {}, answer.values[present].text);
    const says = el("ul", { class: "legend" });
    const picture = el("div", {});
    const show = (i) => {
      picture.replaceChildren(slider.picture(answer, places, i));
      says.replaceChildren(...slider.moved(answer).map((curve, k) => el("li", {}, slider.mark(k), `${curve.label}: ${curve.points[i].absent || curve.points[i].odds}`)));
    };
    show(present);
    const send = settle(60, (value) => { slider.slid = true; site.change({ op: "set", path: slider.within, value }, { slid: true }); });
    range.addEventListener("input", () => {
      const at = answer.values[+range.value];
      shown.textContent = at.text;
      range.setAttribute("aria-valuetext", at.text);
      show(+range.value);
      send(at.text);
    });
    const still = answer.curves.length - slider.moved(answer).length;
    box.replaceChildren(picture, range,
      el("div", { class: "ends" }, el("span", {}, answer.values[0].text), shown, el("span", {}, answer.values[answer.values.length - 1].text)),
      says,
      el("p", { class: "doc" }, "Chance of losing footage on a log scale, with 95 % intervals; coarse, from the same random streams." + (still ? ` It moves nothing for ${still} of the choices.` : "")),
      button("Close", () => slider.close(), { class: "quiet" }));
  },

  // moved returns the curves that the input moves, those of the safest first, as many as
  // can be told apart.
  moved({ curves }) {
    const order = answers.places || curves.map((curve) => curve.place);
    return order.map((place) => curves.find((curve) => curve.place === place)).filter((curve) => curve && curve.moved).slice(0, 8);
  },

  mark(k) { return svg("svg", { viewBox: "0 0 30 10", class: "mark", "aria-hidden": "true" }, svg("line", { x1: 0, x2: 30, y1: 5, y2: 5, class: "line line" + k })); },

  picture(answer, places, own) {
    const curves = slider.moved(answer);
    const wide = 340, high = 170, side = 8, top = 12, foot = 8;
    const scale = chanceScale(curves.flatMap((curve) => curve.points.map((point) => point.chance)), answers.goal());
    const ends = curves.map((curve) => `${curve.label}: ${curve.points[0].odds} to ${curve.points[curve.points.length - 1].odds}`);
    const picture = svg("svg", { viewBox: `0 0 ${wide} ${high}`, class: "curve", role: "img", "aria-label": `From ${answer.values[0].text} to ${answer.values[answer.values.length - 1].text}. ${ends.join(". ")}.` });
    if (!scale) return picture;
    const px = (i) => side + places[i] * (wide - 2 * side);
    const py = (chance) => top + (1 - scale.at(chance)) * (high - top - foot);
    for (const d of decades(scale, 4)) {
      const y = py(10 ** d);
      picture.append(svg("line", { x1: side, x2: wide - side, y1: y, y2: y, class: "tick" }), svg("text", { x: side, y: y - 3, class: "name" }, oddsOf(d)));
    }
    picture.append(svg("line", { x1: px(own), x2: px(own), y1: top, y2: high - foot, class: "own" }));
    if (answers.goal()) picture.append(svg("line", { x1: side, x2: wide - side, y1: py(answers.goal()), y2: py(answers.goal()), class: "goal" }));
    curves.forEach((curve, k) => {
      let path = "", before = false;
      curve.points.forEach(({ chance }, i) => {
        const seen = chance && chance.value > 0;
        if (seen) {
          path += `${before ? "L" : "M"}${px(i).toFixed(1)} ${py(chance.value).toFixed(1)}`;
          picture.append(svg("line", { x1: px(i), x2: px(i), y1: py(chance.low > 0 ? chance.low : chance.value), y2: py(chance.high), class: "bar line" + k }));
        }
        before = seen;
      });
      picture.append(svg("path", { d: path, class: "line line" + k }));
    });
    return picture;
  },
};
