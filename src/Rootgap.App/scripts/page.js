// What the app asks of the page around it.

export const setLight = light => {
  if (light === 'dark' || light === 'light') {
    document.documentElement.dataset.light = light;
    localStorage.setItem('rootgap-light', light);
  } else {
    delete document.documentElement.dataset.light;
    localStorage.removeItem('rootgap-light');
  }
};
export const setHand = hand => {
  if (hand === 'glove') document.documentElement.dataset.hand = hand; else delete document.documentElement.dataset.hand;
  keep('hand', hand);
};
export const setting = name => localStorage.getItem('rootgap-' + name);
export const keep = (name, value) => value === null || value === '' ? localStorage.removeItem('rootgap-' + name) : localStorage.setItem('rootgap-' + name, value);

/** A code that came with this tab's address. */
export const broughtCode = () => sessionStorage.getItem('rootgap-enrol') ?? '';

/** Hands a file to the person: the browser's own way of saving. */
export const save = async (name, type, stream) => {
  const bytes = await stream.arrayBuffer();
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
};

/** Whether this browser reads codes with the camera. */
export const canScan = () => 'BarcodeDetector' in globalThis && !!navigator.mediaDevices?.getUserMedia;
let isScanning = false;
/** What the first code says that is held before the camera; null where it was left. */
export async function scan(video, facing) {
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: facing } });
  try {
    isScanning = true;
    video.srcObject = stream;
    await video.play();
    const detector = new BarcodeDetector({ formats: ['qr_code'] });
    while (isScanning && video.isConnected) {
      const [found] = await detector.detect(video).catch(() => []);
      if (found) return found.rawValue;
      await new Promise(done => setTimeout(done, 150));
    }
    return null;
  } finally {
    isScanning = false;
    stream.getTracks().forEach(track => track.stop());
    video.srcObject = null;
  }
}
export const stopScan = () => { isScanning = false; };

/** Shows SVG drawings one a page and prints them. */
export const printDrawings = drawings => new Promise(done => {
  const sheet = document.createElement('div');
  sheet.className = 'print-only';
  for (const drawing of drawings) {
    const page = document.createElement('div');
    page.className = 'print-page';
    page.innerHTML = drawing;
    sheet.appendChild(page);
  }
  document.body.appendChild(sheet);
  window.addEventListener('afterprint', () => { sheet.remove(); done(); }, { once: true });
  window.print();
});

/** Opens a dialog above the page, or closes it. */
export const modal = (dialog, isOpen) => {
  if (isOpen && !dialog.open) dialog.showModal();
  else if (!isOpen && dialog.open) dialog.close();
};

/** How far this place's clock is ahead of UTC, minutes. */
export const minutesFromUtc = () => -new Date().getTimezoneOffset();

/** The network coming and going, and this page being left: `told.Online(bool)`, `told.Leaving()`. */
export const watch = told => {
  addEventListener('online', () => told.invokeMethodAsync('Online', true));
  addEventListener('offline', () => told.invokeMethodAsync('Online', false));
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'hidden') told.invokeMethodAsync('Leaving'); });
  return navigator.onLine;
};

export const focus = (id, all) => {
  const field = document.getElementById(id);
  if (!field) return false;
  field.focus();
  if (all && field.select) field.select();
  field.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  return true;
};
