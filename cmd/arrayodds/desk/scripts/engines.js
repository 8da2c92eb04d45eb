// Workers that the engine runs in, and what is asked of them.

// seconds without a sign after which a worker is taken for hung.
const patience = 30;

// Engine is one worker. It takes requests while it works on others, and answers each.
class Engine {
  // It begins with a compiled engine in a new worker, or runs in one that there is.
  constructor(module, worker = new Worker(early.url)) {
    this.waiting = new Map();
    this.last = 0;
    this.stops = 0;
    this.dead = "";
    this.worker = worker;
    this.worker.onmessage = ({ data }) => this.hear(data);
    this.worker.onerror = (event) => { event.preventDefault(); this.die(event.message || "the worker failed"); };
    this.ready = new Promise((resolve, reject) => { this.began = resolve; this.failed = reject; });
    this.ready.catch(() => {});
    this.quiet = 0;
    if (module) this.worker.postMessage({ module });
  }

  get busy() { return this.waiting.size > 0; }

  hear(data) {
    this.quiet = 0;
    if (data.dead) return this.die(data.dead);
    if (data.module) {
      Engine.module = data.module;
      return;
    }
    if (data.ready) return this.began(this);
    const asked = this.waiting.get(data.id);
    if (!asked) return;
    if (data.tell !== undefined) return asked.tell && asked.tell(JSON.parse(data.tell));
    this.waiting.delete(data.id);
    if (data.error) return asked.reject(new Error(data.error));
    asked.resolve({ answer: JSON.parse(data.answer || "null"), out: data.out });
  }

  // ask sends a request and returns its answer, and the files that come with it.
  async ask(op, args = {}, files = {}, tell = null) {
    const stops = this.stops;
    await this.ready;
    if (this.dead) throw new Error(this.dead);
    if (stops !== this.stops) throw new Error(stopped); // before it began
    const id = ++this.last;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject, tell });
      this.quiet = 0;
      this.worker.postMessage({ id, op, args: JSON.stringify(args), files });
      this.watch();
    });
  }

  // watch ends the worker where it gives no sign any more.
  watch() {
    clearInterval(this.watching);
    this.watching = setInterval(() => {
      if (!this.busy) return clearInterval(this.watching);
      // Counted and not timed: a machine that slept is no worker that hangs.
      if (++this.quiet > patience / 2) this.die(`it gave no sign for ${patience} seconds`);
    }, 2000);
  }

  // stop asks the engine to end what it does; where it does not soon, the worker goes.
  stop() {
    this.stops++;
    if (!this.busy || this.dead) return;
    this.worker.postMessage({ stop: true });
    const asked = [...this.waiting.keys()];
    setTimeout(() => {
      if (asked.some((id) => this.waiting.has(id))) this.die(stopped);
    }, 150);
  }

  die(why) {
    if (this.dead) return;
    this.dead = why;
    this.worker.terminate();
    clearInterval(this.watching);
    const error = new Error(why);
    this.failed(error);
    for (const { reject } of this.waiting.values()) reject(error);
    this.waiting.clear();
  }
}

const stopped = "stopped";

// Pool spreads jobs over workers, as many as there are processors. Its workers come
// from the module that the first worker compiled.
class Pool {
  constructor(size) {
    this.engines = new Array(size).fill(null);
    this.queue = [];
    this.idle = []; // workers that have begun nothing yet
  }

  // do runs a job on the next worker that is free. In a round that is over by then it
  // is not begun.
  do(round, op, args, files, tell) {
    return new Promise((resolve, reject) => {
      this.queue.push({ round, op, args, files, tell, resolve, reject });
      this.next();
    });
  }

  // fill makes the workers that there are not, or not any more.
  fill() { this.engines.forEach((engine, i) => { if (!engine || engine.dead) this.engines[i] = new Engine(Engine.module, this.idle.pop()); }); }

  // next gives out jobs; those from before the engine is there wait for it.
  next() {
    if (!Engine.module) return;
    if (this.queue.length) this.fill();
    for (const engine of this.engines) {
      if (!this.queue.length) return;
      if (engine.taken) continue;
      const job = this.queue.shift();
      engine.taken = true;
      engine.round = job.round;
      engine.ask(job.op, job.args, job.files, job.tell).then(
        (got) => job.resolve({ ...got, engine }),
        (err) => job.reject(err),
      ).finally(() => { engine.taken = false; this.next(); });
    }
  }

  // warm has every worker begin a job that is ended as soon as there is another: what
  // runs for the first time in an engine must be compiled, which takes longer than to
  // run it.
  warm(op, args, files) { this.engines.forEach((_, i) => this.do("warm", op, args(i), files).catch(() => {})); }

  // end drops what is left of a round.
  end(round) {
    for (const job of this.queue.filter((job) => job.round === round)) job.reject(new Error(stopped));
    this.queue = this.queue.filter((job) => job.round !== round);
    for (const engine of this.engines) {
      if (engine && engine.taken && engine.round === round) engine.stop();
    }
  }
}

// engines is all workers: front reads, edits and puts together, and is never made to
// wait for a simulation; pool simulates.
const engines = {
  front: null,
  pool: new Pool(Math.max(1, Math.min(navigator.hardwareConcurrency || 2, 8))),

  async begin() {
    if (!early.worker) throw new Error(early.error);
    this.front = new Engine(null, early.worker);
    this.pool.idle.push(early.unpacker);
    for (const data of early.heard) this.front.hear(data);
    early.failed = () => { if (!Engine.module) this.front.die(early.error); };
    if (early.error) this.front.die(early.error);
    await this.front.ready;
    this.pool.fill(); // while front reads the file
    this.pool.next();
  },

  // ask asks the front worker, of which a new one is made where it died.
  async ask(op, args, files) {
    if (this.front.dead && !Engine.module) throw new Error(this.front.dead); // none can be made
    if (this.front.dead) this.front = new Engine(Engine.module);
    return this.front.ask(op, args, files);
  },
};
