// The docs' pages, all in one file that the service worker keeps: help is there with the network gone.

let pages;
// A worker that is just being woken may not answer: what it keeps is asked for itself.
const kept = e => caches.match(new URL('js/help.json', document.baseURI).href).then(found => found ?? Promise.reject(e));
const all = () => pages ??= fetch('js/help.json').catch(kept).then(answer => answer.ok ? answer.json() : Promise.reject(new Error('The help is not on this device yet, and the shop does not answer.'))).catch(e => { pages = undefined; throw e; });

/** A page by its name; null where there is none. */
export const page = async name => (await all()).find(p => p.name === name) ?? null;

const words = html => html.replace(/<svg.*?<\/svg>/gs, ' ').replace(/<[^>]*>/g, ' ').replace(/&quot;/g, '"').replace(/&#39;/g, "'").replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&').replace(/\s+/g, ' ').trim();

/** A page's parts, each from its heading to the next. */
const parts = page => page.parts ??= page.html.split(/(?=<h[123] id=)/).filter(html => html.trim()).map((html, i) => {
  const [, id, title] = /^<h[123] id="([^"]*)"[^>]*>(.*?)<\/h/s.exec(html) ?? [null, '', page.title];
  const says = words(html.replace(/^<h[123].*?<\/h[123]>/s, ''));
  return { name: page.name + (i > 0 ? '#' + id : ''), title: i > 0 ? `${words(title)} (${page.title.split(':')[0]})` : page.title, says, low: says.toLowerCase() };
});

/** Parts of pages that hold all words of a text: those that have them in their title first, then those that have them oftenest. */
export const find = async (text, most) => {
  // Where a word begins: a gap is no part of a name that ends so.
  const asked = text.toLowerCase().split(/\s+/).filter(word => word).map(word => new RegExp('(?<![a-z])' + word.replace(/[^a-z0-9]/g, c => '\\' + c), 'g'));
  if (asked.length === 0) return [];
  const found = [];
  for (const { name, title, says, low } of (await all()).flatMap(parts)) {
    const head = title.toLowerCase().replaceAll('-', ' ');
    if (!asked.every(word => low.search(word) >= 0 || head.search(word) >= 0)) continue;
    const from = Math.max(0, says.lastIndexOf(' ', Math.max(0, low.search(asked[0]) - 60)) + 1);
    found.push({ name, title, says: (from > 0 ? '… ' : '') + says.slice(from, from + 170) + (from + 170 < says.length ? ' …' : ''),
      weight: asked.filter(word => head.search(word) >= 0).length * 1000 + asked.reduce((sum, word) => sum + (low.match(word)?.length ?? 0), 0) });
  }
  return found.sort((a, b) => b.weight - a.weight).slice(0, most);
};

/** To the place that an address names, or to the top. */
export const show = at => {
  const place = at && document.getElementById(at);
  if (place) { place.scrollIntoView(); place.focus({ preventScroll: true }); } else scrollTo(0, 0);
};

/** To the page from which somebody came to the help, over all its own pages; to the first page where nobody came from one, as in a tab of its own. */
export const back = () => {
  const isOfHelp = address => new URL(address).pathname.includes('/help');
  if (window.navigation?.currentEntry) {
    const before = navigation.entries().slice(0, navigation.currentEntry.index).findLast(entry => !isOfHelp(entry.url));
    if (before) navigation.traverseTo(before.key);
    else Blazor.navigateTo('');
    return;
  }
  const step = () => {
    if (!isOfHelp(location.href)) return;
    if (history.length < 2) { Blazor.navigateTo(''); return; }
    addEventListener('popstate', () => setTimeout(step), { once: true });
    history.back();
  };
  step();
};
