// The docs' pages as the app shows them: one file with all of them, so that help is there with the network gone. Not committed.
import fs from 'node:fs';
import path from 'node:path';
import { Marked } from 'marked';

const docs = path.resolve(import.meta.dirname, '../../../docs');
const into = path.resolve(import.meta.dirname, '../wwwroot/js/help.json');
// About the program's making and not about its use.
const left = ['decisions'];

const slug = text => text.toLowerCase().replace(/<[^>]*>|&[^;]*;/g, '').replace(/[^\w\s-]/g, '').trim().replace(/\s+/g, '-');
const escaped = text => text.replace(/[&<>"]/g, c => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c]);
const names = fs.readdirSync(docs, { recursive: true }).map(f => f.replaceAll('\\', '/')).filter(f => f.endsWith('.md')).map(f => f.slice(0, -3)).filter(n => !left.includes(n)).sort();
const known = new Set(names);

// A rule's name is a word of the file: here it is said in plain words, and the file's stands below for who writes an acceptance.
const kept = ['final-fit', 'stub-in', 'tie-in', 'socket-weld', 'in-line', 'lap-joint', 'ring-joint', 'on-centre'];
const plain = rule => {
  const words = kept.reduce((text, word) => text.replaceAll(word, word.replace('-', '~')), rule).replaceAll('-', ' ').replaceAll('~', '-');
  return words[0].toUpperCase() + words.slice(1);
};
const grave = { stop: 'Stop', warn: 'Look', note: 'Note' };
const inWords = (name, markdown) => name === 'rules'
  ? markdown.replace(/\[([a-z0-9-]+)\]\(rules\//g, (all, rule) => `[${plain(rule)}](rules/`).replace(/\) \| (stop|warn|note) \|/g, (all, word) => `) | ${grave[word]} |`)
  : name.startsWith('rules/')
    ? markdown.replace(/^# (.*)$/m, (all, rule) => `# ${plain(rule)}`).replace(/^\*\*(stop|warn|note)\*\*/m, (all, word) => `**${grave[word]}**`)
    : markdown;

const page = name => {
  const folder = path.posix.dirname(name);
  // A page of the docs, a picture of theirs, or nothing that the app has: then the words alone.
  const where = href => {
    const [file, at] = href.split('#');
    if (!file) return `help/${name}#${at}`;
    const to = path.posix.join(folder, file).replace(/\.md$/, '');
    return known.has(to) ? `help/${to}${at ? '#' + at : ''}` : null;
  };
  const renderer = {
    heading({ tokens, depth }) {
      const says = this.parser.parseInline(tokens);
      return `<h${depth} id="${slug(says)}" tabindex="-1">${says}</h${depth}>\n`;
    },
    link({ href, tokens }) {
      const says = this.parser.parseInline(tokens);
      const to = /^[a-z]+:/.test(href) ? null : where(href);
      return to ? `<a href="${escaped(to)}">${says}</a>` : says;
    },
    image({ href, text }) {
      const file = path.join(docs, path.posix.join(folder, href));
      return file.endsWith('.svg') && fs.existsSync(file) ? `<figure aria-label="${escaped(text)}">${fs.readFileSync(file, 'utf8').replace(/<\?xml[^>]*\?>/, '')}</figure>` : `<em>${escaped(text)}</em>`;
    },
    html: () => '',
  };
  const markdown = inWords(name, fs.readFileSync(path.join(docs, name + '.md'), 'utf8'))
    .replace(/`?\bdocs\/([a-z/-]+)\.md`?/g, (all, to) => known.has(to) ? `[${to}](${path.posix.relative(folder, to)}.md)` : all);
  const html = new Marked({ gfm: true }).use({ renderer }).parse(markdown);
  return { name, title: /^# (.*)$/m.exec(markdown)?.[1] ?? name, html: html.replaceAll('<table>', '<div class="wide"><table>').replaceAll('</table>', '</table></div>') };
};

fs.writeFileSync(into, JSON.stringify(names.map(page)));
