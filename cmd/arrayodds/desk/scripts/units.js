// Numbers in fields, with their units and bounds.

// bare is a number without a unit.
const bare = /^[-+]?[\d.]+(e[-+]?\d+)?$/i;

// rangeOf writes a range in TOML: numbers bare, all else in quotes.
function rangeOf(...ends) {
  const [low, likely, high] = ends.map((end) => end.trim()).map((end) => bare.test(end) ? end : end === "" ? "0" : JSON.stringify(end));
  return `{ low = ${low}, likely = ${likely}, high = ${high} }`;
}

// withUnit returns what was typed with the unit that stands beside the field, where it is a
// bare number and the field takes no such.
function withUnit({ unit, kind }, text) { return unit && kind === "quantity" && bare.test(text.trim()) ? `${text.trim()} ${unit}` : text; }

// sayUnit shows the unit while what is typed has none of its own.
function sayUnit({ input, unit, field }) {
  const shown = field.unit && field.kind === "quantity" && (input.value.trim() === "" || bare.test(input.value.trim()));
  unit.textContent = shown ? ` in ${field.unit}` : "";
}

// counts is what a field of a whole number has besides: its bounds, and the arrow keys.
function counts({ kind, low, high }) {
  if (kind !== "integer") return {};
  return { role: "spinbutton", "aria-valuemin": low, "aria-valuemax": high, onkeydown: (event) => {
    const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const now = Number(event.target.value || event.target.getAttribute("aria-valuenow") || NaN);
    if (!by || !Number.isSafeInteger(now)) return;
    event.preventDefault();
    event.target.value = String(Math.min(Math.max(now + by, low), high));
    event.target.dispatchEvent(new Event("input", { bubbles: true }));
  } };
}
