// Before the first paint: the chosen light and the hand, so that nothing flashes or jumps; the token and the job from the address; the worker that keeps the app when the network is gone.
(() => {
  const light = localStorage.getItem('rootgap-light');
  if (light === 'dark' || light === 'light') document.documentElement.dataset.light = light;
  if (localStorage.getItem('rootgap-hand') === 'glove') document.documentElement.dataset.hand = 'glove';
  const brought = new URLSearchParams(location.hash.slice(1));
  const [token, job, enrol] = [brought.get('token'), brought.get('job'), brought.get('enrol')];
  if (job) localStorage.setItem('rootgap-job', job);
  if (token) localStorage.setItem('rootgap-token', token);
  // A code that lets this device in: asked for a name on a page of its own. It stays in this tab alone.
  if (enrol) sessionStorage.setItem('rootgap-enrol', enrol);
  if (token || job || enrol) {
    history.replaceState(null, '', enrol ? '/enrol' : location.pathname + location.search);
  }
  // On a first visit the app itself has the line; what keeps it on this device comes when the whole program is here, or after a while.
  let isKeeping = false;
  globalThis.keepTheApp = () => {
    if (isKeeping || !('serviceWorker' in navigator)) return;
    isKeeping = true;
    navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
  };
  if (navigator.serviceWorker?.controller) keepTheApp();
  // A part of the program that cannot be fetched is told by whoever asked for it; the runtime rejects its own promise besides.
  addEventListener('unhandledrejection', e => { if (/loadLazyAssembly/.test(e.reason?.stack)) e.preventDefault(); });
  addEventListener('load', () => {
    setTimeout(keepTheApp, 20000);
    // The page stands: now what it did not need at first; once more when the network is back.
    const rest = () => navigator.serviceWorker?.ready.then(kept => kept.active?.postMessage('rest'));
    setTimeout(() => { rest(); addEventListener('online', rest); }, 20000);
  });
})();
