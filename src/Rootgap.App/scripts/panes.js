// The isometric on the screen: shown as a whole, made larger, moved; a tap tells the row of the drawing that it hit.

const shown = new Map();
const largest = 16;
const finger = 22;
/** Pixels in a millimetre of the drawing's words: 3.43 mm is their smallest letter's height with its room, so none is under 12 px. */
const perMm = 3.7;
const held = 550; // ms until a finger that rests is a long press

/** Shows a drawing (SVG) in the view with this id; it stays as large and where it was. */
export const put = (id, text, moves) => shown.get(id)?.put(text, moves);

/** A view in `frame`, whose picture is put into `host`; `told.invokeMethodAsync('Tapped', row)` is called for a tap. */
export function openView(id, frame, host, told) {
  let whole = null; // the drawing's own box: x, y, width, height
  let zoom = 1;
  let centre = null;
  let chosen = '';
  const stop = new AbortController();
  const on = (name, work, more) => frame.addEventListener(name, work, { signal: stop.signal, ...more });
  const picture = () => host.firstElementChild;

  /** Units of the drawing in one pixel where all of it is shown. */
  const unit = () => Math.max(whole[2] / frame.clientWidth, whole[3] / frame.clientHeight);

  const look = () => {
    if (!whole || !picture() || !frame.clientWidth || !frame.clientHeight) return;
    const scale = unit() / zoom;
    const [width, height] = [frame.clientWidth * scale, frame.clientHeight * scale];
    if (zoom === 1) centre = [whole[0] + whole[2] / 2, whole[1] + whole[3] / 2];
    // Something of the drawing is always in sight.
    centre = [0, 1].map(i => Math.min(whole[i] + whole[i + 2], Math.max(whole[i], centre[i])));
    picture().setAttribute('viewBox', `${centre[0] - width / 2} ${centre[1] - height / 2} ${width} ${height}`);
    // As a whole it lets the page scroll under a finger; made larger, the finger moves it.
    frame.style.touchAction = zoom === 1 ? 'pan-y' : 'none';
    frame.classList.toggle('zoomed', zoom > 1);
  };
  /** The picture is laid out for this pane, and anew when it is looked at more closely: words keep their size, and there is room for more of them. */
  let asked = '', timer;
  const ask = (wait = 0) => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      if (!frame.clientWidth || !frame.clientHeight || stop.signal.aborted) return;
      const closer = Math.round(Math.min(8, zoom) * 4) / 4;
      const key = `${frame.clientWidth} ${frame.clientHeight} ${closer}`;
      if (key === asked) return;
      asked = key;
      told.invokeMethodAsync('Sized', frame.clientWidth / perMm, frame.clientHeight / perMm, closer);
    }, wait);
  };
  const watcher = new ResizeObserver(() => { look(); ask(60); });
  watcher.observe(frame);

  /** A place on the screen, from the middle of the view, in units of the drawing. */
  const fromMiddle = (x, y) => {
    const box = frame.getBoundingClientRect();
    const scale = unit() / zoom;
    return [(x - box.left - box.width / 2) * scale, (y - box.top - box.height / 2) * scale];
  };
  const zoomTo = (wanted, x, y) => {
    if (!whole) return;
    const before = x === undefined ? [0, 0] : fromMiddle(x, y);
    zoom = Math.min(largest, Math.max(1, wanted));
    if (zoom < 1.02) zoom = 1;
    const after = x === undefined ? [0, 0] : fromMiddle(x, y);
    centre = [centre[0] + before[0] - after[0], centre[1] + before[1] - after[1]];
    look();
    ask(200);
  };
  const move = (x, y) => {
    const scale = unit() / zoom;
    centre = [centre[0] - x * scale, centre[1] - y * scale];
    look();
  };

  const partsOf = row => row ? [...host.querySelectorAll(`[data-row="${CSS.escape(row)}"]`)] : [];
  /** The middle of a row's parts on the screen, from the middle of the view; null where it has none. */
  const middleOf = row => {
    const boxes = partsOf(row).map(p => p.getBoundingClientRect()).filter(b => b.width || b.height);
    if (boxes.length === 0) return null;
    const [left, right] = [Math.min(...boxes.map(b => b.left)), Math.max(...boxes.map(b => b.right))];
    const [top, bottom] = [Math.min(...boxes.map(b => b.top)), Math.max(...boxes.map(b => b.bottom))];
    return fromMiddle((left + right) / 2, (top + bottom) / 2);
  };
  const paint = () => {
    for (const old of host.querySelectorAll('.chosen')) old.classList.remove('chosen');
    for (const old of host.querySelectorAll('.ring')) old.remove();
    for (const part of partsOf(chosen)) {
      part.classList.add('chosen');
      // The chosen leg lies in a ring of the marking colour, under the pipe.
      if (part.matches('.label, .dimension, .joint, .place, .goes-on')) continue;
      const pipes = part.matches('path') ? [part] : [...part.querySelectorAll('path')];
      for (const path of pipes.filter(p => p.getAttribute('stroke-width') >= 0.45)) {
        const top = path.closest('g[transform]') ?? picture();
        let ring = top.querySelector(':scope > .ring');
        if (!ring) {
          ring = document.createElementNS('http://www.w3.org/2000/svg', 'g');
          ring.setAttribute('class', 'ring');
          top.insertBefore(ring, top.firstElementChild);
        }
        const copy = path.cloneNode();
        for (const name of ['id', 'data-row', 'stroke', 'stroke-width', 'class']) copy.removeAttribute(name);
        ring.appendChild(copy);
      }
    }
  };
  /** Which way an axis goes on the screen, degrees clockwise from the right, as the compass in the corner has it. */
  const axis = (word, usual) => {
    const texts = [...host.querySelectorAll('.compass text')];
    const at = name => texts.find(t => t.textContent === name)?.getBoundingClientRect();
    const [tip, up] = [at(word), at('up')];
    const line = host.querySelector('.compass path')?.getBoundingClientRect();
    if (!tip || !up || !line) return usual;
    const middle = b => [b.left + b.width / 2, b.top + b.height / 2];
    const [x, y] = middle(tip);
    // The compass stands straight below its "up".
    const origin = [middle(up)[0], up.bottom + 7 * perMm];
    return Math.atan2(y - origin[1], x - origin[0]) * 180 / Math.PI;
  };
  const arms = (row, x, y) => {
    const box = frame.getBoundingClientRect();
    told.invokeMethodAsync('Arms', row, x - box.left, y - box.top, axis('N', -30), axis('E', 30), box.width, box.height);
  };
  /** The place where the line goes on, under the finger or near it. */
  const goesOn = (x, y) => [...host.querySelectorAll('.goes-on')].map(g => ({ g, b: g.lastElementChild.getBoundingClientRect() }))
    .map(({ g, b }) => ({ row: g.dataset.row, x: b.left + b.width / 2, y: b.top + b.height / 2 }))
    .map(p => ({ ...p, far: Math.hypot(p.x - x, p.y - y) })).filter(p => p.far <= finger + 4).sort((a, b) => a.far - b.far)[0];
  const rowAt = (x, y) => {
    // The part under the finger, else the nearest one that a finger covers.
    for (let reach = 0; reach <= finger; reach += finger / 4) {
      const steps = reach === 0 ? 1 : 12;
      for (let i = 0; i < steps; i++) {
        const angle = i / steps * 2 * Math.PI;
        const part = document.elementFromPoint(x + reach * Math.cos(angle), y + reach * Math.sin(angle))?.closest('[data-row]');
        if (part && host.contains(part)) return part.dataset.row;
      }
    }
    return '';
  };

  /** Leg by leg, as they follow each other in the rows. */
  const walk = step => {
    const rows = [...new Set([...host.querySelectorAll('[data-row*=".legs["]')].map(p => p.dataset.row))].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
    if (rows.length === 0) return;
    const at = rows.indexOf(chosen);
    told.invokeMethodAsync('Tapped', rows[at < 0 ? (step > 0 ? 0 : rows.length - 1) : Math.min(rows.length - 1, Math.max(0, at + step))]);
  };
  const fingers = new Map();
  let moved = 0, press, wasHeld = false;
  on('pointerdown', e => {
    if (e.button > 0) return;
    if (fingers.size === 0) moved = 0;
    fingers.set(e.pointerId, [e.clientX, e.clientY]);
    wasHeld = false;
    clearTimeout(press);
    press = setTimeout(() => {
      if (moved > 6 || fingers.size !== 1) return;
      const row = goesOn(e.clientX, e.clientY)?.row ?? rowAt(e.clientX, e.clientY);
      if (!row) return;
      wasHeld = true;
      arms(row, e.clientX, e.clientY);
    }, held);
  });
  on('contextmenu', e => e.preventDefault());
  on('pointermove', e => {
    const before = fingers.get(e.pointerId);
    if (!before || !whole) return;
    const now = [e.clientX, e.clientY];
    moved += Math.hypot(now[0] - before[0], now[1] - before[1]);
    if (moved > 6 && !frame.hasPointerCapture(e.pointerId)) frame.setPointerCapture(e.pointerId);
    const other = [...fingers].find(([key]) => key !== e.pointerId)?.[1];
    fingers.set(e.pointerId, now);
    if (other) {
      const [was, is] = [before, now].map(p => Math.hypot(p[0] - other[0], p[1] - other[1]));
      if (was > 0) zoomTo(zoom * is / was, (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
      if (zoom > 1) move((now[0] - before[0]) / 2, (now[1] - before[1]) / 2);
    } else if (zoom > 1 && moved > 6) {
      move(now[0] - before[0], now[1] - before[1]);
    }
  });
  for (const name of ['pointerup', 'pointercancel']) on(name, e => { fingers.delete(e.pointerId); clearTimeout(press); });
  on('click', e => {
    if (moved > 6 || wasHeld) return;
    const end = goesOn(e.clientX, e.clientY);
    if (end) { arms(end.row, end.x, end.y); return; }
    const row = rowAt(e.clientX, e.clientY);
    if (row) told.invokeMethodAsync('Tapped', row);
  });
  on('dblclick', e => zoomTo(zoom > 1 ? 1 : 3, e.clientX, e.clientY));
  on('wheel', e => {
    // The page scrolls over it, unless it has been taken up or the wheel is meant to zoom.
    if (!e.ctrlKey && !e.metaKey && document.activeElement !== frame) return;
    e.preventDefault();
    zoomTo(zoom * Math.exp(-e.deltaY * (e.deltaMode === 1 ? 0.05 : e.ctrlKey ? 0.01 : 0.0016)), e.clientX, e.clientY);
  }, { passive: false });
  on('keydown', e => {
    if (e.target !== frame || e.ctrlKey || e.metaKey || e.altKey) return;
    const step = 60;
    const keys = {
      '+': () => zoomTo(zoom * 1.5), '=': () => zoomTo(zoom * 1.5), '-': () => zoomTo(zoom / 1.5), '0': () => zoomTo(1),
      ...(zoom === 1 ? { ArrowRight: () => walk(1), ArrowDown: () => walk(1), ArrowLeft: () => walk(-1), ArrowUp: () => walk(-1), Enter: () => { if (chosen) told.invokeMethodAsync('Opened', chosen); } } : {}),
      ...(zoom > 1 ? { ArrowLeft: () => move(step, 0), ArrowRight: () => move(-step, 0), ArrowUp: () => move(0, step), ArrowDown: () => move(0, -step) } : {}),
    };
    if (!keys[e.key]) return;
    keys[e.key]();
    e.preventDefault();
  });

  /** The marks of the picture laid out last, by their ids: while somebody types they go along with their parts. */
  let marks;
  const bringMarks = (moves, from) => {
    if (!moves) { marks = undefined; return; }
    marks ??= new Map(from.map(mark => [mark.id, mark]));
    const brought = document.createDocumentFragment();
    for (const move of moves.split(';')) {
      const [id, x, y] = move.split(' ');
      const mark = marks.get(id);
      if (!mark) continue;
      if (x !== '0' || y !== '0') mark.setAttribute('transform', `translate(${x} ${y})`);
      else mark.removeAttribute('transform');
      brought.append(mark);
    }
    picture()?.append(brought);
  };

  const view = {
    put(text, moves) {
      const before = zoom > 1 ? middleOf(chosen) : null;
      const was = whole;
      const stood = moves && !marks ? [...host.querySelectorAll('g[id$="-label"]')] : [];
      host.innerHTML = text;
      bringMarks(moves, stood);
      whole = picture()?.getAttribute('viewBox')?.split(' ').map(Number) ?? null;
      if (!whole) return;
      if (was && centre && was[2] !== whole[2]) centre = [centre[0] * whole[2] / was[2], centre[1] * whole[3] / was[3]];
      centre ??= [whole[0] + whole[2] / 2, whole[1] + whole[3] / 2];
      look();
      paint();
      ask();
      // The chosen part stays where it was on the screen.
      const after = before && was && was[2] === whole[2] && middleOf(chosen);
      if (after) {
        centre = [centre[0] + after[0] - before[0], centre[1] + after[1] - before[1]];
        look();
      }
    },
    mark(row) {
      chosen = row;
      paint();
      if (zoom === 1 || !whole) return;
      const at = middleOf(chosen);
      const scale = unit() / zoom;
      if (at && (Math.abs(at[0]) > frame.clientWidth * scale * 0.45 || Math.abs(at[1]) > frame.clientHeight * scale * 0.45)) {
        centre = [centre[0] + at[0], centre[1] + at[1]];
        look();
      }
    },
    larger(times) { zoomTo(zoom * times); },
    whole() { zoomTo(1); },
    close() {
      stop.abort();
      clearTimeout(timer);
      clearTimeout(press);
      watcher.disconnect();
      if (shown.get(id) === view) shown.delete(id);
    },
  };
  shown.set(id, view);
  return view;
}

/** Tells once that an element has come into sight: `told.invokeMethodAsync('Seen')`. */
export function whenSeen(element, told) {
  const watcher = new IntersectionObserver(entries => {
    if (!entries.some(e => e.isIntersecting)) return;
    watcher.disconnect();
    told.invokeMethodAsync('Seen');
  });
  watcher.observe(element);
  return { close() { watcher.disconnect(); } };
}

/** Pasted tables: text of more than one cell is told as `told.invokeMethodAsync('Pasted', text, row, column)`, with the cell it was pasted into. */
export function pastedTables(host, told) {
  const stop = new AbortController();
  host.addEventListener('paste', e => {
    const text = e.clipboardData?.getData('text/plain') ?? '';
    if (!/[\t\n]/.test(text.replace(/[\r\n]+$/, ''))) return;
    e.preventDefault();
    const cell = e.target.closest('[data-cell-row]');
    told.invokeMethodAsync('Pasted', text, Number(cell?.dataset.cellRow ?? -1), cell?.dataset.cellKey ?? '');
  }, { signal: stop.signal });
  // Up, down and Enter go along a column; the last row's Enter is the page's own.
  host.addEventListener('keydown', e => {
    const cell = e.target.closest('[data-cell-row]');
    const way = { ArrowUp: -1, ArrowDown: 1, Enter: e.shiftKey ? -1 : 1 }[e.key];
    if (!cell || !way || e.ctrlKey || e.metaKey || e.altKey || (e.target.list && e.key !== 'Enter')) return;
    // Rows that have no such field are passed over.
    const column = [...host.querySelectorAll(`[data-cell-key="${CSS.escape(cell.dataset.cellKey)}"]`)];
    const next = column[column.indexOf(cell) + way];
    if (next) {
      e.preventDefault();
      next.focus();
      next.select?.();
    } else if (e.key === 'Enter' && way > 0) {
      e.preventDefault();
      e.target.blur();
      told.invokeMethodAsync('Below', cell.dataset.cellKey);
    }
  }, { signal: stop.signal });
  return { close() { stop.abort(); } };
}
