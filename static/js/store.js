// What this phone holds until it is sent, in IndexedDB: works on plain http too, and inside the worker.
// `outbox` has one line per sending, in order; the bytes of its files lie apart, so that listing stays quick.

const NAME = "studbay";
let opened;

function asked(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function open() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("outbox", { keyPath: "order", autoIncrement: true }).createIndex("id", "id", { unique: true });
      request.result.createObjectStore("files");
      request.result.createObjectStore("known");
    };
    request.onsuccess = () => {
      request.result.onclose = () => (opened = undefined);
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

/** Does `work` in one transaction; settled only when it is on the disk, refused as a whole when there is no room. */
async function within(names, mode, work) {
  const database = await open();
  const transaction = database.transaction(names, mode, { durability: "strict" });
  const done = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onerror = transaction.onabort = () => reject(transaction.error);
  });
  done.catch(() => {});
  const result = await work((name) => transaction.objectStore(name));
  await done;
  return result;
}

const key = (id, number) => `${id}/${number}`;

/** Keeps the bytes of one file (an ArrayBuffer) of a sending that is still to be added. */
export const keepBytes = (id, number, bytes) => within(["files"], "readwrite", (store) => asked(store("files").put(bytes, key(id, number))));

/** Adds a sending whose files are kept already, or takes the place of the one with its id. */
export async function keep(entry) {
  return within(["outbox"], "readwrite", async (store) => {
    const before = await asked(store("outbox").index("id").get(entry.id));
    store("outbox").put(before ? { ...entry, order: before.order } : entry);
  });
}

/** All sendings that wait, in the order they were made. */
export const list = () => within(["outbox"], "readonly", (store) => asked(store("outbox").getAll()));

export const find = (id) => within(["outbox"], "readonly", (store) => asked(store("outbox").index("id").get(id)));

/** Changes some of a sending, if it is still there and of the same turn (any, when none is given). */
export async function amend(id, changes, turn) {
  return within(["outbox"], "readwrite", async (store) => {
    const entry = await asked(store("outbox").index("id").get(id));
    if (entry && (turn ?? entry.turn) === entry.turn) store("outbox").put({ ...entry, ...changes });
  });
}

export const bytesOf = (id, number) => within(["files"], "readonly", (store) => asked(store("files").get(key(id, number))));

/** Takes a sending out, with its files, unless another turn of it has taken its place. */
export async function drop(id, turn) {
  return within(["outbox", "files"], "readwrite", async (store) => {
    const entry = await asked(store("outbox").index("id").get(id));
    if (entry && (turn ?? entry.turn) !== entry.turn) return;
    if (entry) store("outbox").delete(entry.order);
    store("files").delete(IDBKeyRange.bound(`${id}/`, `${id}/\uffff`));
  });
}

/** What the phone knows besides: which build is the current one, when its sheets were kept. */
export const known = (name) => within(["known"], "readonly", (store) => asked(store("known").get(name)));
export const know = (name, value) => within(["known"], "readwrite", (store) => asked(store("known").put(value, name)));
