// The page's side of long work: starts and stops the worker, holds the files it made, hands them to the person, keeps them over a closed tab.

const between = 80; // ms between two tellings: as often as an eye can follow

/** A bench for one kind of work. `told` is the .NET side: Told(says, share), Done(why) where `why` is empty when all went well. */
export const bench = told => {
  let worker, files = new Map(), last = 0, timer;
  const end = () => {
    clearTimeout(timer);
    worker?.terminate();
    worker = undefined;
  };
  const finish = why => {
    end();
    return told.invokeMethodAsync('Done', why);
  };
  const tell = (says, share) => {
    const wait = last + between - performance.now();
    clearTimeout(timer);
    const now = () => { last = performance.now(); told.invokeMethodAsync('Told', says, share); };
    if (wait > 0) timer = setTimeout(now, wait); else now();
  };
  const address = name => {
    const file = files.get(name);
    if (!file) return null;
    const url = URL.createObjectURL(file);
    setTimeout(() => URL.revokeObjectURL(url), 10 * 60000);
    return url;
  };
  return {
    start(work, given, parts, request) {
      end();
      files = new Map();
      worker = new Worker(new URL('./long-work.js', import.meta.url), { type: 'module' });
      worker.onerror = e => finish(e.message || 'The worker could not be started.');
      worker.onmessage = ({ data }) => {
        if (data.name) {
          files.set(data.name, new Blob([data.bytes], { type: data.type }));
        } else if (data.done) {
          finish('');
        } else if (data.failed) {
          finish(data.failed);
        } else {
          tell(data.says, data.share);
        }
      };
      worker.postMessage({ work, files: given, parts, request });
    },
    stop: end,
    names: () => [...files].map(([name, file]) => ({ name, size: file.size })),
    text: async name => files.has(name) ? await files.get(name).text() : null,
    put: (name, type, text) => { files.set(name, new Blob([text], { type })); },
    save(name) {
      const link = document.createElement('a');
      link.href = address(name);
      link.download = name;
      link.click();
    },
    open: name => window.open(address(name), '_blank') !== null,
    /** Whether the browser hands files to the device's own sharing. */
    canShare: () => {
      try { return !!navigator.canShare?.({ files: [new File([''], 'sheet.pdf', { type: 'application/pdf' })] }); } catch { return false; }
    },
    /** Hands a file on; what went wrong, or nothing where it went or was left. */
    async share(name) {
      const file = files.get(name);
      if (!file) return 'It is not here any more.';
      try {
        await navigator.share({ files: [new File([file], name, { type: file.type })], title: name });
        return '';
      } catch (e) {
        return e.name === 'AbortError' ? '' : e.message;
      }
    },
    keep: key => during('readwrite', store => store.put([...files], key)),
    async fetch(key) {
      const kept = await during('readonly', store => store.get(key));
      if (kept) files = new Map(kept);
      return kept !== undefined;
    },
  };
};

let open;
const database = () => open ??= new Promise((done, failed) => {
  const asked = indexedDB.open('rootgap-made', 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore('made');
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => { open = undefined; failed(asked.error); };
});
const during = async (mode, work) => {
  const transaction = (await database()).transaction('made', mode);
  const request = work(transaction.objectStore('made'));
  return new Promise((done, failed) => {
    transaction.oncomplete = () => done(mode === 'readonly' ? request.result : undefined);
    transaction.onerror = transaction.onabort = () => failed(transaction.error);
  });
};
