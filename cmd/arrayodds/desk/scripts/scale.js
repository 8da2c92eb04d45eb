// A logarithmic scale of chances, for points with whiskers. A chance has no honest foot
// on it, so nothing is ever drawn as a bar.

// chanceScale returns the scale that holds all of these chances ({value, low, high}) and
// a goal, or null where none is above 0.
function chanceScale(chances, goal) {
  const ends = chances.flatMap((c) => c ? [c.value, c.low, c.high] : []).concat(goal || []).filter((x) => x > 0 && x <= 1);
  if (!ends.length) return null;
  let from = Math.floor(Math.log10(Math.min(...ends)) + 1e-9), to = Math.min(0, Math.ceil(Math.log10(Math.max(...ends)) - 1e-9));
  if (to <= from) to = from + 1;
  if (to > 0) { to = 0; from = Math.min(from, -1); }
  return { from, to, at: (x) => (Math.min(Math.max(Math.log10(x), from), to) - from) / (to - from) };
}

// decades returns the powers of ten to mark, at most one more than most.
function decades(scale, most) {
  const step = Math.max(1, Math.ceil((scale.to - scale.from) / most));
  const all = [];
  for (let d = scale.to; d >= scale.from; d -= step) all.unshift(d);
  return all;
}

function oddsOf(decade) {
  if (decade === 0) return "certain";
  const n = -decade;
  if (n < 7) return "1 in " + String(10 ** n).replace(/\B(?=(\d{3})+$)/g, "\u202f");
  return "1 in 10" + String(n).replace(/\d/g, (d) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[d]);
}

const wide = 300, high = 30, edge = 8;

// x returns where a chance stands in a picture that is wide units across.
function x(scale, chance) { return edge + scale.at(chance) * (wide - 2 * edge); }

// whisker draws one chance: a point, its simulated interval as a thick line, and the
// doubt about the inputs as a thin one.
function whisker(scale, chance, doubt, goal) {
  const picture = svg("svg", { viewBox: `0 0 ${wide} ${high}`, preserveAspectRatio: "none", "aria-hidden": "true", class: "whisker" });
  const line = (a, b, kind) => svg("line", { x1: a, x2: b, y1: high / 2, y2: high / 2, class: kind, "vector-effect": "non-scaling-stroke" });
  for (const d of decades(scale, 2)) {
    const at = edge + (d - scale.from) / (scale.to - scale.from) * (wide - 2 * edge);
    picture.append(svg("line", { x1: at, x2: at, y1: 0, y2: high, class: "tick", "vector-effect": "non-scaling-stroke" }));
  }
  if (goal) {
    const at = x(scale, goal);
    picture.append(svg("line", { x1: at, x2: at, y1: 0, y2: high, class: "goal", "vector-effect": "non-scaling-stroke" }));
  }
  if (!chance || !(chance.high > 0)) return picture;
  if (doubt && doubt.low > 0) picture.append(line(x(scale, doubt.low), x(scale, doubt.high), "doubt"));
  picture.append(line(chance.low > 0 ? x(scale, chance.low) : 0, x(scale, chance.high), chance.value > 0 ? "sure" : "unseen"));
  if (chance.value > 0) picture.append(svg("line", { x1: x(scale, chance.value), x2: x(scale, chance.value), y1: high / 2, y2: high / 2, class: "point", "vector-effect": "non-scaling-stroke" }));
  return picture;
}

// axis draws the names of the decades below such pictures.
function axis(scale) {
  const row = el("div", { class: "axis", "aria-hidden": "true" });
  for (const d of decades(scale, 2)) {
    const at = (edge + (d - scale.from) / (scale.to - scale.from) * (wide - 2 * edge)) / wide;
    row.append(el("span", { style: `left:${(at * 100).toFixed(2)}%` }, oddsOf(d)));
  }
  return row;
}
