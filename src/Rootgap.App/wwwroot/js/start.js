// Before the first paint: the chosen light, so that nothing flashes; the token from the address; the worker that keeps the app when the network is gone.
(() => {
  const light = localStorage.getItem('rootgap-light');
  if (light === 'dark' || light === 'light') document.documentElement.dataset.light = light;
  const token = new URLSearchParams(location.hash.slice(1)).get('token');
  if (token) {
    localStorage.setItem('rootgap-token', token);
    history.replaceState(null, '', location.pathname + location.search);
  }
  if ('serviceWorker' in navigator) navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
})();
