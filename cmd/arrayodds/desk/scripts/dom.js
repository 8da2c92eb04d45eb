// Making elements. Text is always text: nothing here takes markup.

// el makes an element: el("p", {class: "note", onclick: f}, "text", child).
function el(name, props = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
  return made;
}

// svg makes an element of a drawing.
function svg(name, props = {}, ...children) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(props)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

// known is what the page was told of the engine as it was made.
const known = JSON.parse(document.getElementById("known").textContent);

const byId = (id) => document.getElementById(id);

function button(text, act, props = {}) {
  return el("button", { type: "button", onclick: act, ...props }, text);
}

// speak says something to who does not see the page.
function speak(text) { byId("spoken").textContent = text; }

// complain shows what went wrong with something that was asked for.
function complain(text) {
  const box = byId("complaint");
  if (!text) return;
  box.replaceChildren(el("p", {}, text), button("Close", () => { box.hidden = true; }));
  box.hidden = false;
}

// settle calls a function once nothing was asked of it for some milliseconds. Its now
// calls it at once; that is null while nothing is waiting.
function settle(wait, act) {
  let timer = 0;
  const ask = (...args) => {
    clearTimeout(timer);
    ask.now = () => { clearTimeout(timer); ask.now = null; return act(...args); };
    timer = setTimeout(() => ask.now && ask.now(), wait);
  };
  ask.now = null;
  return ask;
}

// pause lets the browser do what else it has to, such as to hear the workers. What was put
// into the page since the last one is laid out meanwhile, and not together with what follows.
// A page that nobody sees has no pauses: its timers come once a second.
function pause() {
  if (document.hidden) return Promise.resolve();
  return new Promise((done) => setTimeout(() => {
    document.body.getBoundingClientRect();
    setTimeout(done);
  }));
}

// reveal shows what is hidden, one part after the other.
async function reveal(parts) {
  for (const part of parts) {
    if (!part.hidden) continue;
    part.hidden = false;
    await pause();
  }
}

// inTurns calls functions one after the other, with a pause wherever they took some
// milliseconds together.
async function inTurns(acts) {
  let began = performance.now();
  for (const act of acts) {
    act();
    if (performance.now() - began < 8) continue;
    await pause();
    began = performance.now();
  }
}

// tell is what becomes of an error that nobody waits for.
function tell(err) { if (err.message !== stopped) complain(err.message); }
