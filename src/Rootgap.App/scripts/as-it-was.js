// The first page as it stood when it was last left, shown at once while the program starts: the list is there to be read, and a drawing can be tapped. It is a picture
// and says so with its time; whatever was tapped opens as soon as the program is there, and then the true page takes its place.
(() => {
  const name = 'rootgap-as-it-was';
  const most = 600000; // letters: browsers keep some five million for an address
  const settled = 800; // ms without a change until the page is worth keeping
  const patience = 60000; // ms until a picture no page has taken the place of goes: then something is wrong, and the page says what
  const app = document.getElementById('app');
  const isFirstPage = () => location.pathname === new URL(document.baseURI).pathname && !location.search;
  const stands = () => app.querySelector('main.page h1') && !app.querySelector('[aria-busy="true"]') && app.querySelector('.drawing-line, #in-the-shop, .begin, .none');
  // What the person is in the midst of is no state to come back to.
  const isPlain = () => !app.querySelector('form, video') && !app.querySelector('#find')?.value;
  const failed = () => app.querySelector('main [role="alert"]');
  const panes = of => of.querySelectorAll('.cols, .cols > *');

  const show = () => {
    let kept;
    try { kept = JSON.parse(localStorage.getItem(name)); } catch { /* another program's, or cut short: none */ }
    if (!kept || kept.job !== localStorage.getItem('rootgap-job') || !isFirstPage()) return;
    const picture = document.createElement('div');
    picture.id = 'as-it-was';
    picture.setAttribute('aria-busy', 'true');
    picture.innerHTML = kept.html;
    // By these marks the program finds its own parts in the page.
    for (const part of picture.querySelectorAll('*')) for (const { name: mark } of [...part.attributes]) if (mark.startsWith('_bl_')) part.removeAttribute(mark);
    for (const part of picture.querySelectorAll('button, input, select, label, summary, .skip')) part.inert = true;
    const at = new Date(kept.at);
    const time = at.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
    const says = picture.querySelector('.sync .says');
    if (says) says.textContent = `As it stood ${at.toDateString() === new Date().toDateString() ? '' : at.toLocaleDateString([], { day: 'numeric', month: 'short' }) + ', '}${time}`;
    let wanted;
    picture.addEventListener('click', e => {
      const link = e.target.closest('a[href]');
      if (!link || e.ctrlKey || e.metaKey || e.shiftKey) return;
      e.preventDefault();
      picture.querySelector('.wanted')?.classList.remove('wanted');
      link.classList.add('wanted');
      wanted = link.getAttribute('href');
    });
    app.className = 'behind';
    app.before(picture);
    const sight = new MutationObserver(look);
    const late = setTimeout(leave, patience);
    function leave() {
      sight.disconnect();
      clearTimeout(late);
      const [before, now] = [panes(picture), panes(app)];
      now.forEach((pane, i) => { if (before[i]?.scrollTop) pane.scrollTop = before[i].scrollTop; });
      const hadFocus = picture.contains(document.activeElement);
      picture.remove();
      app.removeAttribute('class');
      if (hadFocus) app.querySelector('h1')?.focus({ preventScroll: true });
      if (wanted !== undefined) Blazor.navigateTo(wanted);
    }
    function look() { if (stands() || failed() || !isFirstPage()) leave(); }
    sight.observe(app, { childList: true, subtree: true, attributes: true, attributeFilter: ['aria-busy'] });
  };

  let last = '';
  const keep = () => {
    if (!isFirstPage() || document.getElementById('as-it-was') || !stands() || !isPlain()) return;
    const job = localStorage.getItem('rootgap-job');
    const html = app.innerHTML;
    if (!job || html === last) return;
    last = html;
    try {
      if (html.length > most) localStorage.removeItem(name); else localStorage.setItem(name, JSON.stringify({ job, at: Date.now(), html }));
    } catch { /* no room: the page opens without */ }
  };
  let rest;
  new MutationObserver(() => {
    if (!isFirstPage()) return;
    clearTimeout(rest);
    rest = setTimeout(keep, settled);
  }).observe(app, { childList: true, subtree: true, characterData: true });
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'hidden') keep(); });
  addEventListener('pagehide', keep);
  show();
})();
