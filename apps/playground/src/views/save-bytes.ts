/** Hand a file to the browser's own saving. */
export function saveBytes(name: string, mime: string, bytes: Uint8Array<ArrayBuffer>): void {
  const url = URL.createObjectURL(new Blob([bytes], { type: mime }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // the browser has taken hold of the data once the click has been handled
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
