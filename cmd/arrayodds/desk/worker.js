"use strict";
// What a worker of the desk runs, behind Go's own wasm_exec.js: one instance of the
// engine, which answers one request after another.
//
// It is sent {engine: base64 of the packed wasm}, and says {module} once that is
// compiled, or another's {module}, and says {ready}; then
// {id, op, args, files}, and says {id, tell} as an answer sharpens and {id, answer, out}
// or {id, error} at its end. {stop: true} ends what runs. {dead} is the last it says.

const piece = 1 << 18; // characters, a multiple of 4

function bytesOf(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const chars = atob(text), bytes = new Uint8Array(chars.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = chars.charCodeAt(i);
  return bytes;
}

// compile unpacks and compiles at once, so that neither waits for the other.
function compile(text) {
  let at = 0;
  const packed = new ReadableStream({
    pull(to) {
      if (at >= text.length) return to.close();
      to.enqueue(bytesOf(text.slice(at, at += piece)));
    },
  });
  const wasm = packed.pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compileStreaming(new Response(wasm, { headers: { "Content-Type": "application/wasm" } }));
}

async function start({ engine, module }) {
  const made = module || await compile(engine);
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
  else if (data.id) answer(data);
  else start(data).catch((err) => postMessage({ dead: String(err && err.message || err) }));
};
onunhandledrejection = ({ reason }) => postMessage({ dead: String(reason) });
