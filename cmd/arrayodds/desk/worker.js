"use strict";
// What a worker of the desk runs, behind Go's own wasm_exec.js: one instance of the
// engine, which answers requests, some while it works on others.
//
// It begins with {module} of another worker, or compiles one from what comes through the
// port of {compileFrom} and says {module} itself. It says {ready}; then it is sent
// {id, op, args, files}, and says {id, tell} as an answer sharpens and {id, answer, out}
// or {id, error} at its end. {stop: true} ends what runs. {dead} is the last it says.
//
// Before it begins it may unpack the engine for another: after {unpackTo: port} it is sent
// the parts, {part: base64}, and {last: true}.

function bytesOf(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const chars = atob(text), bytes = new Uint8Array(chars.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = chars.charCodeAt(i);
  return bytes;
}

let packed; // takes the parts of the engine

// unpack sends on what the parts unpack to, as they come, and the end or the error.
async function unpack(port) {
  try {
    const engine = new ReadableStream({ start(to) { packed = to; } }).pipeThrough(new DecompressionStream("gzip")).getReader();
    for (;;) {
      const { done, value } = await engine.read();
      if (done) return port.postMessage({ end: true });
      port.postMessage({ bytes: value }, [value.buffer]);
    }
  } catch (err) {
    port.postMessage({ error: String(err && err.message || err) });
  }
}

// take takes a part of the engine; one that is spoilt ends the unpacking.
function take(part) {
  try {
    packed.enqueue(bytesOf(part));
  } catch (err) {
    packed.error(err);
  }
}

// compile compiles what another worker unpacks, as it comes.
async function compile(port) {
  const engine = new ReadableStream({
    start(to) {
      port.onmessage = ({ data }) => {
        if (data.bytes) to.enqueue(data.bytes);
        else if (data.end) to.close();
        else to.error(new Error(data.error));
      };
    },
  });
  const module = await WebAssembly.compileStreaming(new Response(engine, { headers: { "Content-Type": "application/wasm" } }));
  postMessage({ module });
  await run(module);
}

async function run(module) {
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  go.run(instance).then(() => postMessage({ dead: "the engine ended" }), (err) => postMessage({ dead: String(err) }));
  postMessage({ ready: true });
  // Told whenever the engine lets events in, so that one that hangs is noticed.
  setInterval(() => postMessage({ alive: true }), 1000);
}

function begin(started) { started.catch((err) => postMessage({ dead: String(err && err.message || err) })); }

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
  else if (data.module) begin(run(data.module));
  else if (data.compileFrom) begin(compile(data.compileFrom));
  else if (data.unpackTo) unpack(data.unpackTo);
  else if (data.part) take(data.part);
  else if (data.last) packed.close();
};
onunhandledrejection = ({ reason }) => postMessage({ dead: String(reason) });
