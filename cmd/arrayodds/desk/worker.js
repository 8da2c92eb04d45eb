"use strict";
// What a worker of the desk runs, behind Go's own wasm_exec.js: one instance of the
// engine, which answers requests, some while it works on others.
//
// It is sent the packed engine in parts, {part: base64}, and then {begin: true}, and says
// {module} once that is compiled; or {module} of another. It says {ready}; then it is sent
// {id, op, args, files}, and says {id, tell} as an answer sharpens and {id, answer, out}
// or {id, error} at its end. {stop: true} ends what runs. {dead} is the last it says.

function bytesOf(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const chars = atob(text), bytes = new Uint8Array(chars.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = chars.charCodeAt(i);
  return bytes;
}

// The engine is unpacked and compiled as its parts come.
let packed, compiled;

function take(part) {
  if (!compiled) {
    const wasm = new ReadableStream({ start(to) { packed = to; } }).pipeThrough(new DecompressionStream("gzip"));
    compiled = WebAssembly.compileStreaming(new Response(wasm, { headers: { "Content-Type": "application/wasm" } }));
    compiled.catch(() => {}); // said once it is waited for
  }
  packed.enqueue(bytesOf(part));
}

async function start({ module }) {
  if (packed) packed.close();
  const made = module || await compiled;
  if (!module) postMessage({ module: made });
  const go = new Go();
  const instance = await WebAssembly.instantiate(made, go.importObject);
  go.run(instance).then(() => postMessage({ dead: "the engine ended" }), (err) => postMessage({ dead: String(err) }));
  postMessage({ ready: true });
  // Told whenever the engine lets events in, so that one that hangs is noticed.
  setInterval(() => postMessage({ alive: true }), 1000);
}

async function answer({ id, op, args, files }) {
  try {
    const got = await self.arrayodds.handle(op, args, files || {}, (tell) => postMessage({ id, tell }));
    const out = got.files || {};
    postMessage({ id, answer: got.answer, out }, Object.values(out).map((bytes) => bytes.buffer));
  } catch (err) {
    postMessage({ id, error: err && err.name === "AbortError" ? "stopped" : String(err && err.message || err) });
  }
}

onmessage = ({ data }) => {
  if (data.stop) self.arrayodds.stop();
  else if (data.part) take(data.part);
  else if (data.id) answer(data);
  else start(data).catch((err) => postMessage({ dead: String(err && err.message || err) }));
};
onunhandledrejection = ({ reason }) => postMessage({ dead: String(reason) });
