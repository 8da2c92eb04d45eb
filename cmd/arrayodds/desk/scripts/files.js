// Files in and out. Nothing is stored but what the user saves.

// save hands bytes or text to the browser to keep as a file.
function save(name, data, type) {
  const url = URL.createObjectURL(new Blob([data], { type }));
  const link = el("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

const types = {
  html: "text/html", sheet: "text/html", json: "application/json", csv: "text/csv",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", toml: "application/toml",
};

// saveSite saves the file with the last keys that were typed.
async function saveSite() {
  for (const typing of [editor.typed, form.set, form.drop]) if (typing.now) typing.now();
  await site.queue;
  save(site.name, site.text, types.toml);
  site.saved = site.text;
  site.buttons();
  speak("The site file is saved.");
}

const mostBytes = 64 << 20;

// bytesOfFile reads a file that was chosen or dropped.
async function bytesOfFile(file) {
  if (file.size > mostBytes) throw new Error(`${file.name} has ${Math.round(file.size / 1e6)} MB; right would be at most ${mostBytes >> 20} MiB`);
  return new Uint8Array(await file.arrayBuffer());
}

function textOf(bytes) { return new TextDecoder().decode(bytes); }

// take takes files that were dropped or chosen: a site file is opened, a picture is the
// logo, and of a table it is asked what it is.
async function take(list) {
  const files = [...list];
  const toml = files.find((file) => /\.toml$/i.test(file.name));
  try {
    if (toml) {
      const beside = {};
      for (const file of files) if (file !== toml) beside[file.name] = await bytesOfFile(file);
      return await leaveSite() && site.open(textOf(await bytesOfFile(toml)), toml.name, beside);
    }
    for (const file of files) await takeOne(file);
  } catch (err) {
    complain(err.message);
  }
}

async function takeOne(file) {
  if (/\.(png|jpe?g)$/i.test(file.name)) {
    site.files = { ...site.files, [file.name]: await bytesOfFile(file) };
    return site.change({ op: "set", path: "document.logo", value: file.name });
  }
  if (!/\.(csv|tsv|txt|xlsx|gz|zip)$/i.test(file.name)) {
    return complain(`${file.name}: right would be a site file (.toml), a schedule of cameras (.xlsx, .csv), a fleet's record (.csv, .xlsx, .gz, .zip) or a logo (.png, .jpg).`);
  }
  const bytes = await bytesOfFile(file);
  if (site.answer && site.answer.wanted && site.answer.wanted.includes(file.name)) {
    site.files = { ...site.files, [file.name]: bytes };
    return site.read(site.text);
  }
  const use = await choose(`What is ${file.name}?`, /\.(gz|zip)$/i.test(file.name) ? [["record", "A fleet's record of failures"]] : [["cameras", "The schedule of cameras of this site"], ["record", "A fleet's record of failures"]]);
  if (use === "cameras") {
    site.files = { ...site.files, [file.name]: bytes };
    await site.change({ op: "set", path: "cameras", value: file.name });
  } else if (use === "record") {
    studies.record = { name: file.name, bytes };
    showStudy("fit");
    studies.run("fit");
  }
}

// choose asks one question with a few answers; "" is none of them.
function choose(question, options) {
  const dialog = byId("question");
  return new Promise((resolve) => {
    const done = (value) => { dialog.close(); resolve(value); };
    dialog.replaceChildren(el("h2", {}, question), el("div", { class: "buttons" },
      options.map(([value, text]) => button(text, () => done(value), { class: "main" })), button("Cancel", () => done(""))));
    dialog.oncancel = () => resolve("");
    dialog.showModal();
  });
}

// leaveSite asks before a site that was changed and not saved is left.
async function leaveSite() {
  if (!site.changed) return true;
  const what = await choose("The site has changes that are not saved.", [["save", "Save it first"], ["leave", "Leave them"]]);
  if (what === "save") await saveSite();
  return what !== "";
}

// A link carries a small site behind #site=, packed.
const mostLink = 8000;

async function through(bytes, stream) {
  return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(stream)).arrayBuffer());
}

async function linkTo(text) {
  const packed = await through(new TextEncoder().encode(text), new CompressionStream("deflate-raw"));
  const base64 = btoa(String.fromCharCode(...packed)).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  if (base64.length > mostLink) throw new Error("The site is too large for a link; save its file and send that.");
  return location.href.split("#")[0] + "#site=" + base64;
}

function hasLink() { return location.hash.startsWith("#site="); }

async function siteOfLink() {
  if (!hasLink()) return null;
  const [, base64] = location.hash.match(/^#site=([\w-]{1,20000})$/) || [];
  if (!base64) throw new Error("it is cut short or spoilt");
  const packed = Uint8Array.from(atob(base64.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));
  // What unpacks to more than a site file may have is none.
  const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const parts = [];
  for (let size = 0; ;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > 4 << 20) throw new Error("the link unpacks to more than a site file may have");
    parts.push(value);
  }
  return textOf(new Uint8Array(await new Blob(parts).arrayBuffer()));
}

async function shareLink() {
  try {
    const link = await linkTo(site.text);
    history.replaceState(null, "", link);
    const beside = Object.keys(site.named()).length ? " Not in it are the files that the site names." : "";
    await (navigator.clipboard ? navigator.clipboard.writeText(link) : Promise.reject(new Error("no clipboard"))).then(
      () => say("The link is copied. It holds the site file; nothing is stored elsewhere." + beside),
      () => say("The link is in the address bar. It holds the site file." + beside));
  } catch (err) {
    complain(err.message);
  }
}

function say(text) {
  byId("said").textContent = text;
  speak(text);
}
