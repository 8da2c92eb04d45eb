"use strict";
// What runs before the engine is there: one worker unpacks each part of it as soon as the
// page has read it, and another compiles what is unpacked.

const early = { url: "", worker: null, unpacker: null, heard: [], error: "", failed: () => {} };

try {
  const text = ["wasm-exec", "worker"].map((id) => document.getElementById(id).textContent).join("\n");
  early.url = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  early.worker = new Worker(early.url);
  early.unpacker = new Worker(early.url);
  const { port1, port2 } = new MessageChannel();
  early.worker.postMessage({ compileFrom: port1 }, [port1]);
  early.unpacker.postMessage({ unpackTo: port2 }, [port2]);
  early.worker.onmessage = ({ data }) => early.heard.push(data);
  early.worker.onerror = early.unpacker.onerror = (event) => {
    event.preventDefault();
    early.error = event.message || "the worker failed";
    early.failed();
  };
} catch (err) {
  early.error = err.message;
}

// feed hands on the part that stands before the script that calls it.
function feed() {
  const part = document.currentScript.previousElementSibling;
  if (early.unpacker) early.unpacker.postMessage({ part: part.textContent });
  part.remove();
}

// fed says that all parts were handed on.
function fed() { if (early.unpacker) early.unpacker.postMessage({ last: true }); }
