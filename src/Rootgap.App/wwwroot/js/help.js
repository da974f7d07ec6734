// The docs' pages, all in one file that the service worker keeps: help is there with the network gone.

let pages;
const all = () => pages ??= fetch('js/help.json').then(answer => answer.ok ? answer.json() : Promise.reject(new Error('The help is not on this device yet, and the shop does not answer.'))).catch(e => { pages = undefined; throw e; });

/** A page by its name; null where there is none. */
export const page = async name => (await all()).find(p => p.name === name) ?? null;

const words = html => html.replace(/<svg.*?<\/svg>/gs, ' ').replace(/<[^>]*>/g, ' ').replace(/&quot;/g, '"').replace(/&#39;/g, "'").replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&').replace(/\s+/g, ' ').trim();

/** Pages that hold all words of a text: those that have them in their title first, then those that have them oftenest. */
export const find = async (text, most) => {
  const asked = text.toLowerCase().split(/\s+/).filter(word => word);
  if (asked.length === 0) return [];
  const found = [];
  for (const p of await all()) {
    const says = p.says ??= words(p.html), low = p.low ??= says.toLowerCase(), title = p.title.toLowerCase().replaceAll('-', ' ');
    if (!asked.every(word => low.includes(word) || title.includes(word))) continue;
    const at = Math.max(0, low.indexOf(asked[0], p.title.length));
    const from = Math.max(0, says.lastIndexOf(' ', Math.max(0, at - 60)) + 1);
    found.push({ name: p.name, title: p.title, says: (from > 0 ? '… ' : '') + says.slice(from, from + 170) + (from + 170 < says.length ? ' …' : ''),
      weight: asked.filter(word => title.includes(word)).length * 1000 + asked.reduce((sum, word) => sum + low.split(word).length - 1, 0) });
  }
  return found.sort((a, b) => b.weight - a.weight).slice(0, most);
};

/** To the place that an address names, or to the top. */
export const show = at => {
  const place = at && document.getElementById(at);
  if (place) { place.scrollIntoView(); place.focus({ preventScroll: true }); } else scrollTo(0, 0);
};

/** To the page from which somebody came to the help, over all its own pages. */
export const back = () => {
  const isOfHelp = () => location.pathname.includes('/help');
  const step = () => { if (isOfHelp() && history.length > 1) { addEventListener('popstate', () => setTimeout(step), { once: true }); history.back(); } };
  step();
};
