// The engine of the day's page, outside its bundle: a worker's script, and for tests a Node module. It brings outbye_day.wasm to
// life from its bytes and needs nothing else, so that a page in one file can start it from text and bytes.
"use strict";

// What the library of the engine asks of its surroundings. It has no clock, files or threads; what it writes before it gives
// up is kept for the message.
function surroundings(memory, written) {
  return {
    env: { emscripten_notify_memory_growth() {} },
    wasi_snapshot_preview1: {
      fd_write(_file, pieces, count, done) {
        const view = new DataView(memory().buffer);
        let bytes = 0;
        for (let i = 0; i < count; i++) {
          const at = view.getUint32(pieces + 8 * i, true);
          const length = view.getUint32(pieces + 8 * i + 4, true);
          written.push(new TextDecoder().decode(new Uint8Array(memory().buffer, at, length)));
          bytes += length;
        }
        view.setUint32(done, bytes, true);
        return 0;
      },
      fd_read: () => 8,
      fd_close: () => 8,
      fd_seek: () => 8,
      environ_sizes_get(count, size) {
        new DataView(memory().buffer).setUint32(count, 0, true);
        new DataView(memory().buffer).setUint32(size, 0, true);
        return 0;
      },
      environ_get: () => 0,
      proc_exit(code) {
        throw new Error(`the engine ended itself (${code}): ${written.join("").trim()}`);
      },
    },
  };
}

// `call(name, request)`: JSON text in, JSON text out. After it has thrown, this engine is dead: make another.
async function outbyeDay(bytes) {
  let exports;
  const written = [];
  const { instance } = await WebAssembly.instantiate(bytes, surroundings(() => exports.memory, written));
  exports = instance.exports;
  exports._initialize?.();
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  return {
    call(name, request) {
      const named = encoder.encode(name);
      const asked = encoder.encode(request);
      const room = exports.outbye_day_room(named.length + asked.length);
      const there = new Uint8Array(exports.memory.buffer, room, named.length + asked.length);
      there.set(named);
      there.set(asked, named.length);
      const reply = exports.outbye_day_call(named.length);
      // The memory may have grown, and then its buffer is another.
      return decoder.decode(new Uint8Array(exports.memory.buffer, reply, exports.outbye_day_length()));
    },
    bytes: () => exports.memory.buffer.byteLength,
  };
}

// In: {wasm: bytes or address}, once; then {id, name, request}. Out: {id, reply}, or {died: why}, after which nothing comes.
function answerMessages() {
  let engine;
  const die = (error) => {
    postMessage({ died: error instanceof Error ? error.message : String(error) });
    close();
  };
  const bytesOf = async (wasm) => {
    if (typeof wasm !== "string") return wasm;
    const answer = await fetch(wasm);
    if (!answer.ok) throw new Error(`${wasm}: ${answer.status}`);
    return answer.arrayBuffer();
  };
  onmessage = async ({ data }) => {
    if (data.wasm !== undefined) engine = bytesOf(data.wasm).then(outbyeDay);
    try {
      const ready = await engine;
      if (data.id !== undefined) postMessage({ id: data.id, reply: ready.call(data.name, data.request) });
    } catch (error) {
      die(error);
    }
  };
}

if (typeof module !== "undefined") module.exports = { outbyeDay };
else if (typeof WorkerGlobalScope !== "undefined") answerMessages();
