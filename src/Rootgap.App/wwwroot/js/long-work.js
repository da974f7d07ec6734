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
  const { setModuleImports, getAssemblyExports, getConfig } = await dotnet.create();
  setModuleImports('long-work', imports);
  return (await getAssemblyExports(getConfig().mainAssemblyName)).Rootgap.App.Packets.LongWork;
})();

onmessage = async ({ data: { work, files, request } }) => {
  try {
    const program = await ready;
    for (const { path, content } of files) program.Give(path, content);
    program[work](...request);
    postMessage({ done: true });
  } catch (e) {
    postMessage({ failed: String(e?.message ?? e).split('\n')[0] });
  }
};
