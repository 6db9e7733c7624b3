// @ts-check
/** Sets that wait on this phone until the server has them: kept in the browser's database, in order. */

/**
 * @typedef {object} Waiting
 * @property {number} [at] its place in the queue
 * @property {string} owner whose account wrote it
 * @property {string} gym which gym it is of
 * @property {string} session what sets of one piece of work share
 * @property {string} words how it went, to be shown
 * @property {Record<string, unknown>} set as it is sent
 * @property {{detail: string, got?: string|null, wanted?: string|null}} [refused] why the server refused it
 */

const NAME = "topheavy-rack";
const SHELF = "waiting";

/** @type {Promise<IDBDatabase>|undefined} */
let opened;

function database() {
  opened ??= new Promise((done, fail) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(SHELF, { keyPath: "at", autoIncrement: true });
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error);
  });
  return opened;
}

/** Do one thing in a transaction; done when it is on the disk.
 * @param {IDBTransactionMode} mode @param {(shelf: IDBObjectStore) => IDBRequest} act */
async function within(mode, act) {
  const base = await database();
  return new Promise((done, fail) => {
    const whole = base.transaction(SHELF, mode, { durability: "strict" });
    const asked = act(whole.objectStore(SHELF));
    whole.oncomplete = () => done(asked.result);
    whole.onabort = () => fail(whole.error);
    whole.onerror = () => fail(whole.error);
  });
}

/** Everything that waits, first to last. @returns {Promise<Waiting[]>} */
export const waiting = () => within("readonly", (shelf) => shelf.getAll());

/** @param {Waiting} one */
export const keep = (one) => within("readwrite", (shelf) => shelf.put(one));

/** @param {number} at */
export const drop = (at) => within("readwrite", (shelf) => shelf.delete(at));

/** A UUID; made by hand where the browser has none to give, as on a plain http address. */
export function newId() {
  if (typeof crypto.randomUUID === "function") return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
