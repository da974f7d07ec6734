// Keys and taps of the drawing table. Everything is heard at its root; the program is called at once and has drawn anew when the call comes back.

const letters = { n: 'north', s: 'south', e: 'east', w: 'west', u: 'up', d: 'down' };
/** Milliseconds in which a further letter belongs to the word begun, counted in beats while the page is free to hear it: a device that is slow to answer takes none of it. */
const patience = 2000, beat = 100;
let stop;

/** `told` has Typed(row, key, value), Entered(row, key), Left(), Unfit(row, key, typed), Act(act, row, key, value) -> id of the field to go to. */
export function begin(root, told) {
  const listening = new AbortController();
  stop = listening;
  const on = (target, kind, heard, more) => target.addEventListener(kind, heard, { signal: listening.signal, ...more });
  let current = null;        // the field in which the person is, or was last
  let begun = '';            // letters typed towards a word
  let beats = 0;

  const isCell = el => el instanceof HTMLElement && el.dataset.key !== undefined && el.matches('input, textarea');
  const rowOf = el => el.closest('[data-row]');
  const pathOf = el => rowOf(el)?.dataset.row ?? '';
  const cellsOf = row => [...row.querySelectorAll('input[data-key]')];

  /** Calls the program. The field that has the focus keeps it, and stays where it is on the screen, whatever grows or shrinks above it. */
  let isCalling = false;     // while the program draws, it cannot be called
  const call = (...what) => {
    if (isCalling) return '';
    const field = document.activeElement;
    const before = isCell(field) && field.tagName === 'INPUT' ? field.getBoundingClientRect().top : null;
    isCalling = true;
    try {
      const result = told.invokeMethod(...what);
      if (before !== null && !result && field.isConnected && document.activeElement !== field) field.focus({ preventScroll: true });
      if (before !== null && document.activeElement === field) {
        const moved = field.getBoundingClientRect().top - before;
        if (Math.abs(moved) > 1) (field.closest('.rows-side') ?? window).scrollBy({ top: moved, behavior: 'instant' });
      }
      return result;
    } finally {
      isCalling = false;
    }
  };
  const go = field => {
    if (!field) return false;
    field.focus({ preventScroll: true });
    field.closest('.write-row')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    field.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    return true;
  };
  const act = (name, el, value = '') => {
    const [path, key] = el ? [el.dataset.path ?? pathOf(el), el.dataset.key ?? ''] : ['', ''];
    const id = call('Act', name, path, key, value);
    if (id) go(document.getElementById(id));
    return id;
  };
  const put = (field, value) => {
    field.value = value;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    field.setSelectionRange(value.length, value.length);
  };
  const beside = (field, step) => {
    const row = field.closest('.write-row');
    const cells = cellsOf(row);
    const next = cells[cells.indexOf(field) + step];
    if (next) return go(next);
    return above(field, step, step > 0 ? 'first' : 'last');
  };
  /** The field above or below: of the same key, else the nearest to the side. */
  const above = (field, step, which) => {
    const rows = [...root.querySelectorAll('.write-row, .run-line')].filter(r => r.offsetParent !== null);
    const row = rows[rows.indexOf(field.closest('.write-row')) + step];
    if (row?.matches('.run-line')) return Boolean(act('open', row));
    if (!row) return false;
    const cells = cellsOf(row);
    if (cells.length === 0) return false;
    if (which === 'first') return go(cells[0]);
    if (which === 'last') return go(cells[cells.length - 1]);
    const at = field.getBoundingClientRect().left;
    return go(cells.find(c => c.dataset.key === field.dataset.key) ?? cells.reduce((a, b) =>
      Math.abs(b.getBoundingClientRect().left - at) < Math.abs(a.getBoundingClientRect().left - at) ? b : a));
  };
  const isWhole = field => field.value === '' || (field.selectionStart === 0 && field.selectionEnd === field.value.length);
  const wordsOf = field => (field.dataset.words ?? '').split('|').filter(w => w);

  /** A letter in a field that holds one of some words: the word that begins so; the same letter again takes the next. */
  const choose = (field, letter) => {
    begun += letter.toLowerCase();
    take(field, letter);
    clearInterval(beats);
    let rested = 0;
    beats = setInterval(() => {
      rested += beat;
      if (rested < patience) return;
      clearInterval(beats);
      begun = '';
    }, beat);
  };
  const take = (field, letter) => {
    const words = wordsOf(field);
    // "f" alone is final-fit or field weld: it takes neither.
    if (field.dataset.key === 'end') {
      const said = begun === 'ff' || begun.startsWith('fin') ? 'final-fit' : begun === 'fw' || begun.startsWith('fie') ? 'field' : '';
      if (said && words.includes(said)) return put(field, said);
      if (begun === 'f' || begun === 'fi') return;
    }
    const found = words.find(w => w.toLowerCase() === begun) ?? words.find(w => w.toLowerCase().startsWith(begun));
    if (found) return put(field, found);
    if ([...begun].every(c => c === begun[0])) {
      const same = words.filter(w => w.toLowerCase().startsWith(begun[0]));
      if (same.length > 0) return put(field, same[(same.indexOf(field.value) + 1) % same.length]);
    }
    // What cannot go on with the word that stands there goes on to the next blank that takes it.
    if (field.value && onward(field, letter)) return;
    call('Unfit', pathOf(field), field.dataset.key, begun);
  };
  /** A letter or figure goes to the next empty blank of the row in which it makes sense. */
  const onward = (field, sign) => {
    const row = rowOf(field).closest('.write-row') ?? rowOf(field);
    const cells = cellsOf(row);
    for (const next of cells.slice(cells.indexOf(field) + 1)) {
      const { manner, key } = next.dataset;
      if (next.value || key === 'more' || key === 'name' || key === 'note') continue;
      if (/\d/.test(sign)) {
        if (manner !== 'text') continue;
        go(next);
        put(next, sign);
        return true;
      }
      if (manner !== 'choice') continue;
      go(next);
      if (wordsOf(next).some(w => w.toLowerCase().startsWith(sign.toLowerCase()))) {
        begun = sign.toLowerCase();
        take(next, sign);
        return true;
      }
    }
    go(field);
    return false;
  };
  /** On from a blank: to the next that the row needs, else to the next row. */
  const goesOn = field => {
    const row = rowOf(field).closest('.write-row') ?? rowOf(field);
    const { key } = field.dataset;
    const next = { go: row.querySelector('[data-key="by"]') ?? row.querySelector('[data-key="to"]'), by: row.querySelector('[data-key="to"]') }[key];
    if (next && row.classList.contains('of-leg')) return go(next);
    const needed = cellsOf(row).find(c => c !== field && c.ariaRequired === 'true' && !c.value);
    return needed ? go(needed) : act('next', field);
  };

  /** A letter or figure in a direction or a place: N is north; E600 U600 is a vector. True where it is done. */
  const direct = (field, sign) => {
    const word = letters[sign.toLowerCase()];
    const whole = isWhole(field);
    const text = whole ? '' : field.value.slice(0, field.selectionStart);
    const rest = whole ? '' : field.value.slice(field.selectionEnd);
    const token = text.slice(text.lastIndexOf(' ') + 1);
    if (word) {
      if (field.dataset.manner === 'direction' && (text === '' || (rest === '' && Object.values(letters).includes(text.trim())))) { put(field, word); return true; }
      if (rest === '' && (token === '' || /[\d'"]$/.test(token))) { put(field, (text && token ? text + ' ' : text) + word + ' '); return true; }
    } else if (/[-.\d]/.test(sign) && rest === '' && Object.values(letters).includes(token)) {
      put(field, text + ' ' + sign);
      return true;
    }
    return false;
  };

  on(root, 'input', e => {
    const field = e.target;
    if (!isCell(field)) return;
    const from = field.selectionStart;
    call('Typed', pathOf(field), field.dataset.key, field.value);
    if (field.tagName === 'TEXTAREA' && field.selectionStart !== from) field.setSelectionRange(from, from);
  });
  on(root, 'focusin', e => {
    if (!isCell(e.target) || isCalling) return;
    if (current !== e.target) begun = '';
    current = e.target;
    if (current.dataset.skew) { delete current.dataset.skew; current.inputMode = 'none'; }
    call('Entered', pathOf(current), current.dataset.key);
    if (current.tagName === 'INPUT') current.select();
    // The pad has come: the row stays in sight above it.
    current.closest('.write-row')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    current.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  });
  on(root, 'focusout', e => {
    // Also heard while the program draws, when it takes a field away: so not at once.
    if (isCell(e.target)) setTimeout(() => { if (!isCell(document.activeElement) && !listening.signal.aborted) call('Left'); });
  });

  on(root, 'keydown', e => {
    const field = e.target;
    if (!isCell(field) || e.isComposing || field.tagName === 'TEXTAREA') return;
    const done = () => { e.preventDefault(); e.stopPropagation(); };
    const { manner, key } = field.dataset;
    const ctrl = e.ctrlKey || e.metaKey;
    if (key === 'more' && field.value && (e.key === 'Tab' && !e.shiftKey || e.key === 'Enter')) { done(); act('ask', field, field.value); return; }
    switch (e.key) {
      case 'Enter':
        done();
        if (ctrl) act('insert', field);
        else if (e.shiftKey) above(field, -1);
        else act('next', field);
        return;
      case 'Delete':
        if (ctrl) { done(); act('remove', field); } else if (manner === 'choice') { done(); begun = ''; put(field, ''); }
        return;
      case 'Backspace':
        if (manner === 'choice') { done(); begun = ''; put(field, ''); }
        return;
      case 'Escape':
        done();
        begun = '';
        act('cancel', field);
        return;
      case 'F2': {
        const more = field.closest('.write-row')?.querySelector('[data-key="more"]');
        if (more) { done(); go(more); }
        return;
      }
      case 'ArrowUp': case 'ArrowDown': {
        done();
        const step = e.key === 'ArrowUp' ? -1 : 1;
        if (ctrl) act(step < 0 ? 'up' : 'down', field);
        else if (e.altKey) {
          const words = wordsOf(field);
          if (words.length > 0) put(field, words[(words.indexOf(field.value) + step + words.length) % words.length]);
        } else above(field, step);
        return;
      }
      case 'ArrowLeft':
        if (!ctrl && !e.shiftKey && (isWhole(field) || manner === 'choice' || field.selectionEnd === 0)) { done(); beside(field, -1); }
        return;
      case 'ArrowRight':
        if (!ctrl && !e.shiftKey && (isWhole(field) || manner === 'choice' || field.selectionStart === field.value.length)) { done(); beside(field, 1); }
        return;
    }
    if (ctrl || e.altKey) {
      if (ctrl && e.key.toLowerCase() === 'd') { done(); act('copy', field); }
      if (ctrl && e.key.toLowerCase() === 'b') { done(); act('branch', field); }
      return;
    }
    if (e.key.length !== 1) return;
    // A letter right behind figures goes on to what stands there.
    if ((key === 'go' || key === 'by') && /[a-z]/i.test(e.key) && !isWhole(field) && /\d$/.test(field.value) && field.selectionStart === field.value.length) {
      const to = field.closest('.write-row')?.querySelector('[data-key="to"]');
      if (to) { done(); go(to); begun = ''; choose(document.getElementById(to.id), e.key); return; }
    }
    if (manner === 'choice' && /\d/.test(e.key) && field.value && !wordsOf(field).some(w => w.startsWith(e.key) || w.startsWith(begun + e.key))) { if (onward(field, e.key)) { done(); return; } }
    if (manner === 'choice') { done(); choose(field, e.key); }
    else if (manner === 'direction' || manner === 'place') { if (direct(field, e.key)) done(); }
    else if (manner === 'word' && isWhole(field) && /[a-z]/i.test(e.key)) {
      const word = wordsOf(field).find(w => w.startsWith(e.key.toLowerCase()));
      if (word) { done(); put(field, word); }
    } else if (manner === 'word' && wordsOf(field).includes(field.value) && field.selectionStart === field.value.length) {
      // The rest of a word that stands there already, or something else instead of it.
      done();
      if (!/[a-z-]/i.test(e.key)) put(field, e.key);
    }
  });
  // What can be done with a leg has one stop; arrows go from deed to deed.
  on(root, 'keydown', e => {
    const deed = e.target.closest('.deeds button');
    const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
    if (!deed || !step) return;
    const all = [...deed.parentElement.querySelectorAll('button')];
    all[(all.indexOf(deed) + step + all.length) % all.length].focus();
    e.preventDefault();
  });
  // Undo and redo hold for the drawing, wherever the person is on this page; a reason that is being typed has its own.
  on(document, 'keydown', e => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const away = document.activeElement;
    if (away instanceof HTMLElement && away.matches('input, textarea, select') && !isCell(away)) return;
    const sign = e.key.toLowerCase();
    const name = sign === 'z' ? (e.shiftKey ? 'redo' : 'undo') : sign === 'y' ? 'redo' : '';
    if (!name) return;
    e.preventDefault();
    act(name, null);
  });

  // Words and deeds for fingers; the field keeps the focus, so the keyboard of a tablet does not come and go.
  // A pad that goes as a finger comes down would take the deed from under it.
  const kept = '[data-word], .pad button, .deeds button, .draw-tools [data-act]';
  on(root, 'pointerdown', e => { if (e.target.closest(kept)) e.preventDefault(); });
  on(root, 'mousedown', e => { if (e.target.closest(kept)) e.preventDefault(); });
  on(root, 'click', e => {
    const digit = e.target.closest('[data-digit]')?.dataset.digit;
    if (digit) {
      const field = current?.isConnected ? current : null;
      if (!field) return;
      const text = isWhole(field) && field.value ? '' : field.value;
      if (document.activeElement !== field) field.focus({ preventScroll: true });
      put(field, digit === 'back' ? field.value.slice(0, -1) : text + digit);
      return;
    }
    const word = e.target.closest('[data-word]');
    if (word) {
      const field = current?.isConnected ? current : null;
      if (!field) return;
      if (document.activeElement !== field) field.focus({ preventScroll: true });
      if (field.dataset.key === 'more') { act('ask', field, word.dataset.word); return; }
      begun = '';
      put(field, word.dataset.word);
      if (word.dataset.word && field.dataset.manner !== 'text' && field.dataset.key !== 'by') goesOn(field);
      return;
    }
    const deed = e.target.closest('[data-act]');
    if (!deed || deed.getAttribute('aria-disabled') === 'true') return;
    const field = current?.isConnected ? current : null;
    if (deed.dataset.act === 'skew') {
      if (!field) return;
      field.inputMode = 'text';
      field.dataset.skew = '1';
      field.blur();
      field.focus({ preventScroll: true });
      field.inputMode = 'text';
    } else if (deed.dataset.act === 'goes-on') {
      if (field) goesOn(field);
    } else if (deed.dataset.act === 'line') {
      line(deed.dataset.value);
    } else {
      act(deed.dataset.act, deed.dataset.path !== undefined || deed.dataset.act === 'run' ? deed : field, deed.dataset.value ?? '');
    }
  });
  const line = number => {
    const text = document.getElementById('cell--text');
    if (!text) return;
    const lines = text.value.split('\n');
    const from = lines.slice(0, number - 1).reduce((sum, l) => sum + l.length + 1, 0);
    text.focus({ preventScroll: true });
    text.setSelectionRange(from, from + (lines[number - 1] ?? '').length);
    const high = text.scrollHeight / lines.length;
    text.closest('.yaml-scroll').scrollTo({ top: Math.max(0, (number - 4) * high) });
  };
}

export const end = () => stop?.abort();

/** Puts the cursor into a field. */
export const goTo = id => { const field = document.getElementById(id); field?.focus({ preventScroll: true }); field?.scrollIntoView({ block: 'nearest' }); };

/** Brings the first finding into sight, the stops first. */
export const toFinding = () => (document.querySelector('.editor .finding.stop') ?? document.querySelector('.editor .finding.unread') ?? document.querySelector('.editor .finding'))?.scrollIntoView({ block: 'center' });

/** Brings a row into sight, as after a tap on the drawing. */
export const show = id => document.getElementById(id)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
