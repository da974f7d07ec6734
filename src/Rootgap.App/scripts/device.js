// This device's own key for a job: made here, not to be taken out, kept in the browser's database. With it the device signs, also with no network.
// A person's code is checked here too when there is no network: by a second key that never leaves either, so that nobody can try codes elsewhere.

let open;
const database = () => open ??= new Promise((done, failed) => {
  // The store of the job's facts makes the database.
  const asked = indexedDB.open('rootgap');
  asked.onsuccess = () => { asked.result.onversionchange = () => { asked.result.close(); open = undefined; }; done(asked.result); };
  asked.onerror = () => { open = undefined; failed(asked.error); };
});
const answer = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
const get = async id => answer((await database()).transaction('device').objectStore('device').get(id));
const put = async value => {
  const transaction = (await database()).transaction('device', 'readwrite', { durability: 'strict' });
  transaction.objectStore('device').put(value);
  await new Promise((done, failed) => { transaction.oncomplete = done; transaction.onerror = transaction.onabort = () => failed(transaction.error); });
};
const base64 = buffer => btoa(String.fromCharCode(...new Uint8Array(buffer)));
const bytes = text => Uint8Array.from(atob(text), c => c.charCodeAt(0));
const ecdsa = { name: 'ECDSA', namedCurve: 'P-256' };
const signing = { name: 'ECDSA', hash: 'SHA-256' };

/** Whether this page may make keys: browsers allow it over https and on the machine itself. */
export const canSign = () => !!globalThis.crypto?.subtle;

/** Makes a key pair; gives the public half. It is not in use until `keep`. */
let made;
export async function make() {
  const pair = await crypto.subtle.generateKey(ecdsa, false, ['sign', 'verify']);
  const own = await crypto.subtle.generateKey({ name: 'HMAC', hash: 'SHA-256' }, false, ['sign', 'verify']);
  made = { key: pair.privateKey, own };
  return base64(await crypto.subtle.exportKey('spki', pair.publicKey));
}
export const keep = (job, device) => put({ id: job, device, ...made, codes: {} });

/** The device's id on a job; null where it is not let in. */
export const deviceOf = async job => (await get(job))?.device ?? null;
export const sign = async (job, data) => base64(await crypto.subtle.sign(signing, (await get(job)).key, data));

/** Whether a signature over some bytes was made with the key of this public half. */
export async function verify(spki, signature, data) {
  try {
    const key = await crypto.subtle.importKey('spki', bytes(spki), ecdsa, false, ['verify']);
    return await crypto.subtle.verify(signing, key, bytes(signature), data);
  } catch {
    return false;
  }
}
/** The first and last figures of a key's SHA-256, by which people tell keys apart. */
export async function fingerprint(spki) {
  const hash = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes(spki)))].map(b => b.toString(16).padStart(2, '0')).join('');
  return hash.slice(0, 16).replace(/(.{4})(?=.)/g, '$1 ');
}

const words = (person, code) => new TextEncoder().encode(`${person}:${code}`);
/** The server said that this is the person's code: it is known here from now on. */
export async function learnCode(job, person, code) {
  const kept = await get(job);
  kept.codes[person] = { mark: await crypto.subtle.sign('HMAC', kept.own, words(person, code)), wrong: 0 };
  await put(kept);
}
/** 'right', 'wrong', or 'unknown' where the server must be asked: never learnt here, or too many wrong ones. */
export async function checkCode(job, person, code) {
  const kept = await get(job);
  const known = kept.codes[person];
  if (!known || known.wrong >= 5) return 'unknown';
  const isRight = await crypto.subtle.verify('HMAC', kept.own, known.mark, words(person, code));
  known.wrong = isRight ? 0 : known.wrong + 1;
  await put(kept);
  return isRight ? 'right' : 'wrong';
}
