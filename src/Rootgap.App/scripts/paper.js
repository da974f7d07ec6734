// A photograph of the paper drawing, or a page of its PDF: moved, brought closer, turned, and ticked off figure by figure. Ticks go to the job; until they are there they lie in this browser, under the picture's own digest.

const near = 22;    // pixels: a tap so near to a tick takes it off
const largest = 12;
const whole = 10000; // places on the picture are whole numbers up to this, from its upper left corner

/** Ticks of a picture that are not with the job yet; null where all are. */
const placeOf = key => `rootgap-ticks-${key}`;
export const kept = key => localStorage.removeItem(placeOf(key));

/**
 * `standing` are the ticks that the job has; `told.invokeMethodAsync('TicksStand', key, ticks, isNew)` is called with all that stand on the picture, and whether the hand set them.
 * `pdf` is null for a picture; else it has the page `number`, and `told.invokeMethodAsync('PageDrawn', key, lacks)` says what of it could not be drawn.
 */
export async function open(frame, sheet, key, standing, told, pdf, number) {
  const image = sheet.querySelector('img');
  const page = await pdf?.page(number);
  const place = placeOf(key);
  const before = read();
  let ticks = before ?? standing;
  const done = [];             // what can be taken back
  let [zoom, turned, centre] = [1, 0, [0.5, 0.5]];
  const stop = new AbortController();
  const on = (name, work, more) => frame.addEventListener(name, work, { signal: stop.signal, ...more });

  function read() {
    try {
      const kept = JSON.parse(localStorage.getItem(place) ?? 'null');
      if (!Array.isArray(kept)) return null;
      const places = kept.filter(t => Array.isArray(t) && t.length === 2 && t.every(Number.isFinite));
      // As they were written once: shares of the whole.
      return places.map(t => t.every(c => c >= 0 && c <= 1) && t.some(c => !Number.isInteger(c)) ? t.map(c => Math.round(c * whole)) : t.map(Math.round));
    } catch {
      return null;
    }
  }
  const size = () => page?.size ?? [image.naturalWidth || 1, image.naturalHeight || 1];
  const scale = () => {
    const [w, h] = turned % 180 ? size().reverse() : size();
    return zoom * Math.min(frame.clientWidth / w, frame.clientHeight / h);
  };
  const matrix = () => {
    const [w, h] = size();
    return new DOMMatrix().translateSelf(frame.clientWidth / 2, frame.clientHeight / 2).rotateSelf(turned).scaleSelf(scale()).translateSelf(-centre[0] * w, -centre[1] * h);
  };
  const look = () => {
    centre = centre.map(c => zoom === 1 ? 0.5 : Math.min(1, Math.max(0, c)));
    sheet.style.transform = matrix().toString();
    for (const tick of sheet.querySelectorAll('.tick')) tick.style.transform = `rotate(${-turned}deg) scale(${1 / scale()})`;
    if (page) {
      clearTimeout(resting);
      resting = setTimeout(sharpen, 120);
    }
  };
  // A page is drawn whole once, and what the frame shows of it again where that is brought closer: as sharp as the screen.
  let resting, full, part;
  const sharpen = async () => {
    const [w, h] = page.size, sharp = scale() * devicePixelRatio;
    if (stop.signal.aborted || !(sharp > 0)) return;
    try {
      if (!full) {
        const drawn = await page.draw([0, 0, w, h], sharp);
        if (!drawn || stop.signal.aborted) return;
        sheet.prepend(full = drawn);
        frame.dataset.drawn = 'whole';
        told.invokeMethodAsync('PageDrawn', key, page.lacks());
      } else if (sharp > full.width / w * 1.05) {
        const corners = [[0, 0], [frame.clientWidth, 0], [0, frame.clientHeight], [frame.clientWidth, frame.clientHeight]].map(([x, y]) => on01(x, y));
        const [x1, y1] = [0, 1].map(i => Math.max(0, Math.min(...corners.map(c => c[i]))));
        const [x2, y2] = [0, 1].map(i => Math.min(1, Math.max(...corners.map(c => c[i]))));
        if (x2 <= x1 || y2 <= y1) return;
        const drawn = await page.draw([x1 * w, y1 * h, (x2 - x1) * w, (y2 - y1) * h], sharp);
        if (!drawn || stop.signal.aborted) return;
        part?.remove();
        full.after(part = drawn);
        frame.dataset.drawn = 'part';
      } else {
        part?.remove();
        part = null;
        frame.dataset.drawn = 'whole';
      }
    } catch (e) {
      told.invokeMethodAsync('PageDrawn', key, e.message);
    }
  };
  /** A place in the frame, pixels, as a place on the picture. */
  const on01 = (x, y) => {
    const [w, h] = size();
    const p = matrix().inverse().transformPoint(new DOMPoint(x, y));
    return [p.x / w, p.y / h];
  };
  const draw = () => {
    for (const old of sheet.querySelectorAll('.tick')) old.remove();
    for (const [x, y] of ticks.map(t => t.map(c => c / whole))) {
      const tick = document.createElement('div');
      tick.className = 'tick';
      tick.style.left = `${x * 100}%`;
      tick.style.top = `${y * 100}%`;
      tick.innerHTML = '<svg viewBox="0 0 28 28" aria-hidden="true"><path d="M5 15l6 8 12 -19" stroke="#fff" stroke-width="8"/><path d="M5 15l6 8 12 -19" stroke="#A11D12" stroke-width="4"/></svg>';
      sheet.append(tick);
    }
    look();
  };
  const tell = isNew => told.invokeMethodAsync('TicksStand', key, ticks, isNew);
  const keep = now => {
    done.push(ticks);
    ticks = now;
    try { localStorage.setItem(place, JSON.stringify(ticks)); } catch { /* no room: the ticks stay while the page does */ }
    draw();
    tell(true);
  };
  const tap = (x, y) => {
    const at = on01(x, y);
    if (at.some(c => c < 0 || c > 1)) return;
    const [w, h] = size();
    const off = t => Math.hypot((t[0] / whole - at[0]) * w, (t[1] / whole - at[1]) * h) * scale();
    const nearest = ticks.reduce((best, t) => best && off(best) <= off(t) ? best : t, null);
    keep(nearest && off(nearest) < near ? ticks.filter(t => t !== nearest) : [...ticks, at.map(c => Math.round(c * whole))]);
  };
  const zoomTo = (wanted, x = frame.clientWidth / 2, y = frame.clientHeight / 2) => {
    const before = on01(x, y);
    zoom = Math.min(largest, Math.max(1, wanted));
    if (zoom < 1.03) zoom = 1;
    const after = on01(x, y);
    centre = centre.map((c, i) => c + before[i] - after[i]);
    look();
  };
  const move = (dx, dy) => {
    const [from, to] = [on01(0, 0), on01(dx, dy)];
    centre = centre.map((c, i) => c + from[i] - to[i]);
    look();
  };
  const turn = () => {
    turned = (turned + 90) % 360;
    look();
  };

  const fingers = new Map();
  let moved = 0;
  const at = e => { const box = frame.getBoundingClientRect(); return [e.clientX - box.left, e.clientY - box.top]; };
  on('pointerdown', e => {
    if (e.button !== 0) return;
    frame.setPointerCapture(e.pointerId);
    if (fingers.size === 0) moved = 0;
    fingers.set(e.pointerId, at(e));
    if (fingers.size > 1) moved = Infinity;
  });
  on('pointermove', e => {
    const before = fingers.get(e.pointerId);
    if (!before) return;
    const now = at(e);
    if (fingers.size === 2) {
      const other = [...fingers].find(([id]) => id !== e.pointerId)[1];
      const apart = p => Math.hypot(p[0] - other[0], p[1] - other[1]) || 1;
      zoomTo(zoom * apart(now) / apart(before), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
    } else {
      moved += Math.hypot(now[0] - before[0], now[1] - before[1]);
      if (moved > 8) move(now[0] - before[0], now[1] - before[1]);
    }
    fingers.set(e.pointerId, now);
  });
  on('pointerup', e => {
    if (!fingers.delete(e.pointerId) || fingers.size > 0 || moved > 8) return;
    tap(...at(e));
  });
  on('pointercancel', e => fingers.delete(e.pointerId));
  on('wheel', e => {
    e.preventDefault();
    zoomTo(zoom * Math.exp(-e.deltaY / 400), ...at(e));
  }, { passive: false });
  on('keydown', e => {
    const ways = { ArrowLeft: [40, 0], ArrowRight: [-40, 0], ArrowUp: [0, 40], ArrowDown: [0, -40] };
    if (ways[e.key]) move(...ways[e.key]);
    else if (e.key === '+' || e.key === '=') zoomTo(zoom * 1.6);
    else if (e.key === '-') zoomTo(zoom / 1.6);
    else if (e.key === '0') zoomTo(1);
    else if (e.key === 't' || e.key === 'T') turn();
    else if (e.key === 'Enter' || e.key === ' ') tap(frame.clientWidth / 2, frame.clientHeight / 2);
    else if (e.key === 'Backspace' || (e.ctrlKey && e.key === 'z')) undo();
    else return;
    e.preventDefault();
    e.stopPropagation();
  });
  const undo = () => {
    if (done.length > 0) {
      keep(done.pop());
      done.pop();
    } else if (ticks.length > 0) {
      keep(ticks.slice(0, -1));
    }
  };
  const watcher = new ResizeObserver(look);
  watcher.observe(frame);
  if (page) {
    [sheet.style.width, sheet.style.height] = page.size.map(c => `${c}px`);
    draw();
  } else if (image.complete) draw();
  else image.addEventListener('load', draw, { signal: stop.signal });
  tell(before !== null);
  return {
    undo, turn,
    /** What others ticked meanwhile. */
    set(now) { ticks = now; draw(); },
    larger: times => zoomTo(zoom * times),
    close: () => { stop.abort(); watcher.disconnect(); clearTimeout(resting); page?.close(); },
  };
}
