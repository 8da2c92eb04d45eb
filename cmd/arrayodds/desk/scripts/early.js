"use strict";
// What runs before the engine is there: the first worker begins, and unpacks and compiles
// each part of the engine as soon as the page has read it.

const early = { url: "", worker: null, heard: [], error: "" };

try {
  const text = ["wasm-exec", "worker"].map((id) => document.getElementById(id).textContent).join("\n");
  early.url = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  early.worker = new Worker(early.url);
  early.worker.onmessage = ({ data }) => early.heard.push(data);
  early.worker.onerror = (event) => { event.preventDefault(); early.error = event.message || "the worker failed"; };
} catch (err) {
  early.error = err.message;
}

// feed hands on the part that stands before the script that calls it.
function feed() {
  const part = document.currentScript.previousElementSibling;
  if (early.worker) early.worker.postMessage({ part: part.textContent });
  part.remove();
}

// fed says that all parts were handed on.
function fed() { if (early.worker) early.worker.postMessage({ begin: true }); }
