// What the first page says of each drawing, kept over a closed tab. All of it can be worked out again: it is no part of the job's records.

let open;
const database = () => open ??= new Promise((done, failed) => {
  const asked = indexedDB.open('rootgap-glances', 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore('glances', { keyPath: ['job', 'path'] });
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => { open = undefined; failed(asked.error); };
});

const none = new TextEncoder().encode('[]');

/** All that is kept of a job, as the bytes of one list; none where the browser keeps nothing. What an earlier program kept in another way is left out. */
export const all = async job => {
  try {
    const store = (await database()).transaction('glances').objectStore('glances');
    const asked = store.getAll(IDBKeyRange.bound([job], [job, []]));
    return await new Promise((done, failed) => {
      asked.onsuccess = () => done(new TextEncoder().encode(`[${asked.result.filter(kept => kept.json).map(kept => kept.json).join(',')}]`));
      asked.onerror = () => failed(asked.error);
    });
  } catch {
    return none;
  }
};

export const keep = async (job, paths, glances) => {
  const transaction = (await database()).transaction('glances', 'readwrite');
  paths.forEach((path, i) => transaction.objectStore('glances').put({ job, path, json: glances[i] }));
  await new Promise((done, failed) => {
    transaction.oncomplete = done;
    transaction.onerror = transaction.onabort = () => failed(transaction.error);
  });
};

let touched = -Infinity;
for (const kind of ['pointerdown', 'keydown', 'wheel', 'touchmove']) addEventListener(kind, () => { touched = performance.now(); }, { capture: true, passive: true });
const still = 400; // ms without a hand on the page

/** When the page has nothing to do and no hand is on it. */
export const rest = async () => {
  do {
    await new Promise(done => 'requestIdleCallback' in globalThis ? requestIdleCallback(done, { timeout: 200 }) : setTimeout(done, 1));
    const wait = touched + still - performance.now();
    if (wait > 0) await new Promise(done => setTimeout(done, wait));
  } while (performance.now() - touched < still);
};
