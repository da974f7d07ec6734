// PDFs of paper drawings: counted, and drawn page by page as sharp as they are looked at. The library that draws them is brought with the first one.

const folder = new URL('./pdf/', import.meta.url).href;
let library;
const bring = () => library ??= import('./pdf/pdf.js').then(pdf => {
  pdf.GlobalWorkerOptions.workerSrc = folder + 'pdf-worker.js';
  return pdf;
}).catch(e => { library = undefined; throw e; });

const here = 'Photograph the paper, or save its page as a picture (PNG, JPEG), and choose that.';
const words = e => e.name === 'PasswordException' ? `It is locked with a password, and what is locked cannot be read at the shop: save it without one. Or: ${here}`
  : e.name === 'InvalidPDFException' ? `It is damaged or no whole PDF: save or fetch it anew. Or: ${here}`
  : `It cannot be drawn here (${e.message}). ${here}`;

/** Opens one. `wrong` says why it cannot be drawn, with what to do; it has no pages then. */
export async function open(content) {
  let pdf;
  try {
    pdf = await bring();
  } catch {
    return made(null, 'What draws PDFs is not on this device yet, and the shop does not answer. Open it once more when the shop is there.');
  }
  const fonts = { 'FoxitSymbol.pfb': 'FoxitSymbol.dat', 'FoxitDingbats.pfb': 'FoxitDingbats.dat' };
  const lacks = new Set();
  // What the library asks for besides: decoders and fonts lie here; what does not is noted, since something would be missing on the page.
  class Files {
    async fetch({ kind, filename }) {
      const answer = kind === 'cMapUrl' ? null : await fetch(folder + (fonts[filename] ?? filename)).catch(() => null);
      if (answer?.ok) return new Uint8Array(await answer.arrayBuffer());
      if (kind === 'cMapUrl') lacks.add('some of its writing is in letters that it does not bring along');
      if (kind === 'wasmUrl' && /^(jbig2|openjpeg)\./.test(filename)) lacks.add('a picture in it cannot be read');
      throw new Error(filename);
    }
  }
  try {
    const work = pdf.getDocument({ data: content.slice(), BinaryDataFactory: Files, useWorkerFetch: false, verbosity: 0 });
    const document = await work.promise;
    await document.getPage(1);
    return made(document, '', lacks);
  } catch (e) {
    return made(null, words(e));
  }
}

const most = 8e6;      // pixels of one canvas: a tablet bears it

const made = (document, wrong, lacks = new Set()) => ({
  about: () => ({ pages: document?.numPages ?? 0, wrong }),
  close: () => document?.loadingTask.destroy(),
  /** A page: how large it is, in points, and how a part of it is drawn. */
  async page(number) {
    const page = await document.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    let working;
    return {
      size: [width, height],
      /** What could not be drawn, in words; empty where all was. */
      lacks: () => [...lacks].join(', and '),
      /** Draws a part of it (points from its upper left corner) with so many pixels a point; null where another part is asked for meanwhile. */
      async draw([x, y, w, h], scale) {
        working?.cancel();
        const sharp = Math.min(scale, Math.sqrt(most / (w * h)));
        const canvas = Object.assign(globalThis.document.createElement('canvas'), { width: Math.ceil(w * sharp), height: Math.ceil(h * sharp) });
        const mine = working = page.render({ canvas, viewport: page.getViewport({ scale: sharp, offsetX: -x * sharp, offsetY: -y * sharp }) });
        try {
          await mine.promise;
        } catch (e) {
          if (e.name === 'RenderingCancelledException') return null;
          throw e;
        } finally {
          if (working === mine) working = null;
        }
        Object.assign(canvas.style, { left: `${x}px`, top: `${y}px`, width: `${w}px`, height: `${h}px` });
        return canvas;
      },
      close: () => working?.cancel(),
    };
  },
});
