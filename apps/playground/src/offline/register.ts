/**
 * Keeps a copy of the page for use without a network. Only a built page has one; a browser that refuses loses nothing
 * but that.
 */
export function keepOfflineCopy(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  window.addEventListener('load', () => {
    navigator.serviceWorker.register('./sw.js', { scope: './' }).catch(() => undefined);
  });
}
