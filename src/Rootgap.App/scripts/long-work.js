// Runs in a worker: a second .NET runtime with the same program, for work that takes long. The page stays free; Stop ends the worker.
import { dotnet } from '../_framework/dotnet.js';

const imports = {
  told: (says, share) => postMessage({ says, share }),
  made: (name, type, bytes) => {
    const own = bytes.slice();
    postMessage({ name, type, bytes: own }, [own.buffer]);
  },
};

const ready = (async () => {
  const { setModuleImports, getAssemblyExports, getConfig, INTERNAL } = await dotnet.create();
  setModuleImports('long-work', imports);
  const program = (await getAssemblyExports(getConfig().mainAssemblyName)).Rootgap.App.Packets.LongWork;
  return { program, bring: name => INTERNAL.loadLazyAssembly(name) };
})();

/** Whether the browser keeps a part of the program; its name there has a sum of its content in it. */
const isKept = async part => {
  const begins = '/_framework/' + part.replace(/wasm$/, '');
  for (const name of await caches.keys())
    if ((await (await caches.open(name)).keys()).some(kept => kept.url.includes(begins))) return true;
  return false;
};

onmessage = async ({ data: { work, files, parts, request } }) => {
  try {
    const { program, bring } = await ready;
    // A part of the program that is not on this device yet costs what needs it alone, which says so.
    for (const part of parts) if (navigator.onLine || await isKept(part)) await bring(part).catch(() => {});
    for (const { path, content } of files) program.Give(path, content);
    program[work](...request);
    postMessage({ done: true });
  } catch (e) {
    postMessage({ failed: String(e?.message ?? e).split('\n')[0] });
  }
};
