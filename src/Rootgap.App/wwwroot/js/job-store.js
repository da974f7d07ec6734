// The browser's own keeping of a job: facts, each once; drafts of drawings being written; how far the server's facts are fetched.
// Every writing is finished (on the disk, as far as the browser says) before its promise is.

let open;
const database = () => open ??= new Promise((done, failed) => {
  const asked = indexedDB.open('rootgap', 1);
  asked.onupgradeneeded = () => {
    const db = asked.result;
    db.createObjectStore('jobs', { keyPath: 'id' });
    db.createObjectStore('facts', { keyPath: ['job', 'id'] }).createIndex('unsent', ['job', 'unsent']);
    db.createObjectStore('drafts', { keyPath: ['job', 'path'] });
  };
  asked.onsuccess = () => {
    asked.result.onversionchange = () => asked.result.close();
    done(asked.result);
  };
  asked.onerror = () => { open = undefined; failed(asked.error); };
  asked.onblocked = () => failed(new Error('Another tab holds an older version of the job open. Close it and try again.'));
});

const all = (job) => IDBKeyRange.bound([job], [job, []]);

/** Runs `work` in one transaction: all of it is kept or none. */
async function during(stores, mode, work) {
  const db = await database();
  const transaction = db.transaction(stores, mode, { durability: 'strict' });
  const finished = new Promise((done, failed) => {
    transaction.oncomplete = done;
    transaction.onerror = () => failed(transaction.error);
    transaction.onabort = () => failed(transaction.error ?? new Error('The browser broke the writing off.'));
  });
  let result;
  try {
    result = await work(...stores.map(name => transaction.objectStore(name)));
  } catch (e) {
    try { transaction.abort(); } catch { /* it is over already */ }
    await finished.catch(() => {});
    throw e;
  }
  await finished;
  return result;
}
const answer = request => new Promise((done, failed) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
});

const others = 'BroadcastChannel' in globalThis ? new BroadcastChannel('rootgap') : null;

/** `told.Elsewhere(job)` is called when another tab has written. */
export const listen = told => { if (others) others.onmessage = e => told.invokeMethodAsync('Elsewhere', e.data); };

export const jobs = () => during(['jobs'], 'readonly', store => answer(store.getAll()));
export const putJob = job => during(['jobs'], 'readwrite', async store => {
  const known = await answer(store.get(job.id));
  await answer(store.put({ cursor: 0, ...known, ...job }));
});
export const cursor = job => during(['jobs'], 'readonly', async store => (await answer(store.get(job)))?.cursor ?? 0);

/** All facts of a job as JSON texts, in the order of their ids. */
export const facts = job => during(['facts'], 'readonly', async store => (await answer(store.getAll(all(job)))).map(f => f.json));

/** Adds facts; one that is there already stays as it is. Gives the ids of those that are new. */
export async function add(job, list) {
  const fresh = await during(['facts'], 'readwrite', async store => {
    const ids = [];
    for (const { id, json } of list) {
      if (await answer(store.getKey([job, id])) !== undefined) continue;
      await answer(store.add({ job, id, json, unsent: 1 }));
      ids.push(id);
    }
    return ids;
  });
  if (fresh.length > 0) {
    others?.postMessage(job);
    navigator.storage?.persist?.();
  }
  return fresh;
}

/** Facts that the server gave, with how far it has been read. Gives those that were new here. */
export async function fetched(job, list, next) {
  const fresh = await during(['facts', 'jobs'], 'readwrite', async (store, known) => {
    const ids = [];
    for (const { id, json } of list) {
      const there = await answer(store.get([job, id]));
      if (there === undefined) ids.push(id);
      const kept = { job, id, json: there?.json ?? json };
      if (there === undefined || there.unsent) await answer(store.put(kept));
    }
    const record = await answer(known.get(job));
    if (record && next > (record.cursor ?? 0)) await answer(known.put({ ...record, cursor: next }));
    return ids;
  });
  if (fresh.length > 0) others?.postMessage(job);
  return fresh;
}

export const unsent = (job, most) => during(['facts'], 'readonly', async store =>
  (await answer(store.index('unsent').getAll(IDBKeyRange.only([job, 1]), most))).map(f => f.json));
export const unsentCount = job => during(['facts'], 'readonly', store => answer(store.index('unsent').count(IDBKeyRange.only([job, 1]))));

/** The server has kept these. */
export const sent = (job, ids) => during(['facts'], 'readwrite', async store => {
  for (const id of ids) {
    const there = await answer(store.get([job, id]));
    if (there?.unsent) {
      delete there.unsent;
      await answer(store.put(there));
    }
  }
});

export const drafts = job => during(['drafts'], 'readonly', store => answer(store.getAll(all(job))));
export const putDraft = draft => during(['drafts'], 'readwrite', store => answer(store.put(draft)));

/** A draft that has become a saved version: both steps in one, so that neither half can be lost. */
export async function saveDraft(job, path, text, id, json) {
  await during(['facts', 'drafts'], 'readwrite', async (store, draft) => {
    await answer(store.put({ job, id, json, unsent: 1 }));
    const kept = await answer(draft.get([job, path]));
    if (kept && kept.text === text) await answer(draft.delete([job, path]));
  });
  others?.postMessage(job);
}
export const dropDraft = (job, path) => during(['drafts'], 'readwrite', store => answer(store.delete([job, path])));

/** How much room the browser gives, in bytes. */
export const room = async () => {
  const estimate = await navigator.storage?.estimate?.();
  return { usage: estimate?.usage ?? 0, quota: estimate?.quota ?? 0, isPersisted: await navigator.storage?.persisted?.() ?? false };
};
