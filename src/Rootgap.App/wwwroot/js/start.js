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
  if ('serviceWorker' in navigator) {
    navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
    // The page stands: now what it did not need at first.
    addEventListener('load', () => setTimeout(() => navigator.serviceWorker.ready.then(kept => kept.active?.postMessage('rest')), 20000));
  }
})();
