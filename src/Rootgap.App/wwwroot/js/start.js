// Before the first paint: the chosen light, so that nothing flashes; the token and the job from the address; the worker that keeps the app when the network is gone.
(() => {
  const light = localStorage.getItem('rootgap-light');
  if (light === 'dark' || light === 'light') document.documentElement.dataset.light = light;
  const brought = new URLSearchParams(location.hash.slice(1));
  const [token, job] = [brought.get('token'), brought.get('job')];
  if (job) localStorage.setItem('rootgap-job', job);
  if (token) localStorage.setItem('rootgap-token', token);
  if (token || job) {
    history.replaceState(null, '', location.pathname + location.search);
  }
  if ('serviceWorker' in navigator) navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
})();
