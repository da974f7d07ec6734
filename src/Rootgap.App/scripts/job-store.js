// The browser's own keeping of jobs: facts, each once; what the server did not take; drafts of drawings being written; how far the server's facts are fetched.
// Every writing is finished (on the disk, as far as the browser says) before its promise is.

let open;
const database = () => open ??= new Promise((done, failed) => {
  const asked = indexedDB.open('rootgap', 3);
  asked.onupgradeneeded = e => {
    const db = asked.result;
    if (e.oldVersion < 1) {
      db.createObjectStore('jobs', { keyPath: 'id' });
      db.createObjectStore('facts', { keyPath: ['job', 'id'] }).createIndex('unsent', ['job', 'unsent']);
      db.createObjectStore('drafts', { keyPath: ['job', 'path'] });
    }
    if (e.oldVersion < 2) {
      // Facts that the server did not take, with the reason; and what only this device has: its key.
      asked.transaction.objectStore('facts').createIndex('refused', ['job', 'refused']);
      db.createObjectStore('device', { keyPath: 'id' });
    }
    // Pictures and papers, each once a job under its digest. unsent 1: only here, as far as is known; 2: only here, and the server has no fact that speaks of it.
    if (e.oldVersion < 3) {
      db.createObjectStore('attachments', { keyPath: ['job', 'sha256'] }).createIndex('unsent', ['job', 'unsent']);
      db.createObjectStore('picked', { keyPath: ['job', 'of', 'sha256'] });
    }
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
export const listen = told => { if (others) others.onmessage = e => told.invokeMethodAsync('Elsewhere', e.data.job, e.data.ids); };

// Many facts go over in one piece of bytes, a line each: id, number in the store, time kept, JSON, with a tab between. JSON holds no line ends.
const lines = facts => new TextEncoder().encode(facts.map(f => `${f.id}\t${f.seq ?? ''}\t${f.kept ?? ''}\t${f.json.replace(/[\r\n]/g, ' ')}`).join('\n'));
const unlines = bytes => new TextDecoder().decode(bytes).split('\n').filter(line => line).map(line => {
  const [id, seq, kept] = line.split('\t', 3);
  return { id, seq: +seq, kept, json: line.slice(id.length + seq.length + kept.length + 3) };
});
const one = value => IDBKeyRange.only(value);

/** The jobs that this browser keeps, each with how many facts, how many of them unsent and how many not taken. */
export const jobs = () => during(['jobs', 'facts'], 'readonly', async (store, facts) => Promise.all((await answer(store.getAll())).map(async job => {
  const [count, unsent, refused] = await Promise.all([answer(facts.count(all(job.id))), answer(facts.index('unsent').count(one([job.id, 1]))), answer(facts.index('refused').count(one([job.id, 1])))]);
  return { id: job.id, name: job.name, count, unsent, refused };
})));
export const putJob = job => during(['jobs'], 'readwrite', async store => {
  const known = await answer(store.get(job.id));
  await answer(store.put({ cursor: 0, digest: '', ...known, ...job }));
});
/** How far a job's facts were fetched: number, running digest, and from which keeping of the store. */
export const cursor = job => during(['jobs'], 'readonly', async store => {
  const kept = await answer(store.get(job));
  return { seq: kept?.cursor ?? 0, digest: kept?.digest ?? '', store: kept?.store ?? '' };
});
/** Of which files a device has what was done, where it has not all of a job; null where it has all. */
export const brought = job => during(['jobs'], 'readonly', async store => (await answer(store.get(job)))?.brought ?? null);
export const setBrought = (job, paths) => during(['jobs'], 'readwrite', async store => {
  const kept = await answer(store.get(job));
  if (paths) kept.brought = paths;
  else { delete kept.brought; kept.cursor = 0; kept.digest = ''; }
  await answer(store.put(kept));
});

/** All facts of a job that count here: those that were not taken are not among them. */
export const facts = job => during(['facts'], 'readonly', async store => lines((await answer(store.getAll(all(job)))).filter(f => !f.refused)));
export const some = (job, ids) => during(['facts'], 'readonly', async store => lines((await Promise.all(ids.map(id => answer(store.get([job, id]))))).filter(f => f && !f.refused)));

/** Adds facts, with the pictures and papers that they speak of, all or none; one that is there already stays as it is. Gives the ids of those that are new. */
export async function add(job, list, contents = [], of = null) {
  const fresh = await during(['facts', 'attachments', 'picked'], 'readwrite', async (store, attachments, picks) => {
    if (of) await answer(picks.delete(picksOf(job, of)));
    for (const { sha256, content } of contents)
      if (await answer(attachments.getKey([job, sha256])) === undefined) await answer(attachments.add({ job, sha256, content, unsent: 1 }));
    const ids = [];
    for (const { id, json } of list) {
      if (await answer(store.getKey([job, id])) !== undefined) continue;
      await answer(store.add({ job, id, json, unsent: 1 }));
      ids.push(id);
    }
    return ids;
  });
  if (fresh.length > 0) {
    others?.postMessage({ job, ids: fresh });
    navigator.storage?.persist?.();
  }
  return fresh;
}

/** Facts that the server gave, with how far it has been read. */
export async function fetched(job, bytes, seq, digest, from) {
  const list = unlines(bytes);
  await during(['facts', 'jobs'], 'readwrite', async (store, known) => {
    // All are asked for at once, and each is written when its answer is there: one after the other takes many times as long.
    for (const { id, seq: number, kept, json } of list) {
      const asked = store.get([job, id]);
      asked.onsuccess = () => store.put({ job, id, json: asked.result?.json ?? json, seq: number, kept });
    }
    const record = await answer(known.get(job));
    if (record && seq !== null) await answer(known.put({ ...record, cursor: seq, digest, store: from }));
  });
  if (list.length > 0) others?.postMessage({ job, ids: list.map(f => f.id) });
}

export const unsent = (job, most) => during(['facts'], 'readonly', async store =>
  (await answer(store.index('unsent').getAll(one([job, 1]), most))).map(f => f.json));
export const counts = job => during(['facts', 'attachments'], 'readonly', async (store, attachments) => {
  const [waiting, refused] = await Promise.all([answer(store.index('unsent').count(one([job, 1]))), answer(store.index('refused').count(one([job, 1])))]);
  return { waiting, refused, papers: await answer(attachments.index('unsent').count(one([job, 1]))) };
});
/** What waits to be sent and what was not taken, the newest first, as they are kept. */
export const held = (job, most) => during(['facts'], 'readonly', async store => {
  const [waiting, refused] = await Promise.all([answer(store.index('unsent').getAll(one([job, 1]))), answer(store.index('refused').getAll(one([job, 1])))]);
  return [...refused, ...waiting.reverse().slice(0, most)].map(f => ({ json: f.json, why: f.refused ? f.why ?? '' : null }));
});
/** Everything that only this browser has of a job, for a file. */
export const onlyHere = job => during(['facts', 'attachments'], 'readonly', async (store, attachments) => {
  const list = (await answer(store.getAll(all(job)))).filter(f => f.unsent || f.refused);
  const papers = [];
  for (const unsent of [1, 2]) papers.push(...await answer(attachments.index('unsent').getAll(one([job, unsent]))));
  const written = papers.map(p => JSON.stringify({ sha256: p.sha256, base64: base64(p.content) }));
  return new TextEncoder().encode(`{"facts":[\n${list.map(f => f.json).join(',\n')}\n],"attachments":[\n${written.join(',\n')}\n],"refused":${JSON.stringify(list.filter(f => f.why).map(f => ({ id: f.id, why: f.why })))}}\n`);
});
const base64 = bytes => {
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
};

const change = async (job, ids, work) => {
  await during(['facts'], 'readwrite', async store => {
    for (const id of ids) {
      const there = await answer(store.get([job, id]));
      if (there && work(there) !== false) await answer(store.put(there));
    }
  });
};
/** The server has kept these. */
export const sent = (job, ids) => change(job, ids, fact => { delete fact.unsent; delete fact.refused; delete fact.why; });
/** The server did not take these: they are set aside with its reason, and hold up no others. */
export const refuse = async (job, list) => {
  const why = new Map(list.map(r => [r.id, r.why]));
  await change(job, [...why.keys()], fact => { delete fact.unsent; fact.refused = 1; fact.why = why.get(fact.id); });
  others?.postMessage({ job, ids: null });
};
/** They are to be sent once more. */
export const again = async (job, ids) => {
  await change(job, ids, fact => { fact.unsent = 1; delete fact.refused; delete fact.why; });
  await during(['attachments'], 'readwrite', attachments => sendAgain(attachments, IDBKeyRange.only([job, 2])));
};
const sendAgain = async (attachments, which) => {
  for (const key of await answer(attachments.index('unsent').getAllKeys(which))) {
    const there = await answer(attachments.get(key));
    await answer(attachments.put({ ...there, unsent: 1 }));
  }
};

// Picked for an entry that is not made yet.
const picksOf = (job, of) => IDBKeyRange.bound([job, of], [job, of, []]);
export const pick = (job, of, sha256, name, content) => during(['picked'], 'readwrite', store => answer(store.put({ job, of, sha256, name, content })));
export const picked = (job, of) => during(['picked'], 'readonly', async store => (await answer(store.getAll(picksOf(job, of)))).map(({ name, content }) => ({ name, content })));
export const dropPicked = (job, of, sha256) => during(['picked'], 'readwrite', store => answer(store.delete([job, of, sha256])));

/** A picture or paper; null where it is not here. */
export const attachment = (job, sha256) => during(['attachments'], 'readonly', async store => (await answer(store.get([job, sha256])))?.content ?? null);
/** One that the server gave. */
export const putAttachment = (job, sha256, content) => during(['attachments'], 'readwrite', async store => {
  if (await answer(store.getKey([job, sha256])) === undefined) await answer(store.add({ job, sha256, content }));
});
/** Digests of those that are to be sent, at most so many. */
export const unsentAttachments = (job, most) => during(['attachments'], 'readonly', async store =>
  (await answer(store.index('unsent').getAllKeys(one([job, 1]), most))).map(key => key[1]));
/** The server has these; or (2) no fact of its speaks of them. */
export const noteAttachments = (job, list, unsent) => during(['attachments'], 'readwrite', async store => {
  for (const sha256 of list) {
    const there = await answer(store.get([job, sha256]));
    if (!there) continue;
    if (unsent) there.unsent = unsent;
    else delete there.unsent;
    await answer(store.put(there));
  }
});
/** They were not taken and are given up: they stay in this browser, out of the way. */
export const giveUp = (job, ids) => change(job, ids, fact => { fact.refused = 2; delete fact.unsent; });

// Comparing with a store that is not the one that was read from: its ids come page by page.
let theirs;
export const compareBegin = () => { theirs = new Map(); };
export const comparePage = rows => { for (const [seq, kept, id] of rows) theirs.set(id, [seq, kept]); };
/** What the store lacks waits to be sent; gives the ids that are not here. */
export async function compareEnd(job) {
  const wanted = new Map(theirs);
  let lacking = 0;
  await during(['facts', 'attachments'], 'readwrite', async (store, attachments) => {
    // Whether that store has them is asked when they are sent.
    for (const key of await answer(attachments.getAllKeys(all(job)))) {
      const there = await answer(attachments.get(key));
      if (there.unsent !== 1) await answer(attachments.put({ ...there, unsent: 1 }));
    }
    for (const fact of await answer(store.getAll(all(job)))) {
      wanted.delete(fact.id);
      const there = theirs.get(fact.id);
      if (there ? fact.seq === there[0] && fact.kept === there[1] && !fact.unsent && !fact.refused : fact.unsent || fact.refused) continue;
      if (there) {
        [fact.seq, fact.kept] = there;
        delete fact.unsent; delete fact.refused; delete fact.why;
      } else {
        fact.unsent = 1;
        delete fact.seq; delete fact.kept;
        lacking++;
      }
      store.put(fact);
    }
  });
  theirs = undefined;
  others?.postMessage({ job, ids: null });
  return { missing: [...wanted.keys()], lacking };
}

/** Brings all that is kept of one job into another, to be sent there; the first stays as it is. Gives how many facts were new there. */
export async function join(from, into) {
  const count = await during(['facts', 'drafts', 'attachments'], 'readwrite', async (store, drafts, attachments) => {
    let n = 0;
    for (const key of await answer(attachments.getAllKeys(all(from)))) {
      const there = await answer(attachments.get(key));
      if (await answer(attachments.getKey([into, there.sha256])) === undefined) await answer(attachments.add({ ...there, job: into, unsent: 1 }));
      if (there.unsent) { delete there.unsent; await answer(attachments.put(there)); }
    }
    for (const fact of await answer(store.getAll(all(from)))) {
      if (await answer(store.getKey([into, fact.id])) !== undefined) continue;
      await answer(store.add({ job: into, id: fact.id, json: fact.json, unsent: 1 }));
      n++;
    }
    for (const draft of await answer(drafts.getAll(all(from))))
      if (await answer(drafts.getKey([into, draft.path])) === undefined) await answer(drafts.add({ ...draft, job: into }));
    for (const fact of await answer(store.index('unsent').getAll(one([from, 1])))) {
      delete fact.unsent;
      await answer(store.put(fact));
    }
    return n;
  });
  others?.postMessage({ job: into, ids: null });
  return count;
}

export const drafts = job => during(['drafts'], 'readonly', store => answer(store.getAll(all(job))));
export const putDraft = draft => during(['drafts'], 'readwrite', store => answer(store.put(draft)));

/** A draft that has become a saved version: both steps in one, so that neither half can be lost. */
export async function saveDraft(job, path, text, id, json) {
  await during(['facts', 'drafts'], 'readwrite', async (store, draft) => {
    await answer(store.put({ job, id, json, unsent: 1 }));
    const kept = await answer(draft.get([job, path]));
    if (kept && kept.text === text) await answer(draft.delete([job, path]));
  });
  others?.postMessage({ job, ids: [id] });
}
export const dropDraft = (job, path) => during(['drafts'], 'readwrite', store => answer(store.delete([job, path])));

/** How much room the browser gives, in bytes. */
export const room = async () => {
  const estimate = await navigator.storage?.estimate?.();
  return { usage: estimate?.usage ?? 0, quota: estimate?.quota ?? 0, isPersisted: await navigator.storage?.persisted?.() ?? false };
};
