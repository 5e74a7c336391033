import type { Groups } from './dxf-text.ts';

/** Writes binary DXF for tests: its own table of value types, looked up code by code, shares nothing with the reader's ranges. */

const DOUBLES = new Set([
  10, 11, 12, 13, 20, 21, 22, 23, 30, 31, 38, 39, 40, 41, 42, 43, 44, 45, 48, 50, 51, 210, 220, 230,
]);
const SHORTS = new Set([60, 62, 66, 67, 70, 71, 72, 73, 74, 75, 76, 77, 78, 79, 280]);
const LONGS = new Set([90, 91, 92, 93, 94, 420, 1071]);

/** @param isOld - codes of one byte, as up to R12. */
export function binaryDxfBytes(groups: Groups, isOld: boolean, mark = 'AnyProgram'): Uint8Array {
  const bytes: number[] = [...`${mark} Binary DXF\r\n\x1a\0`].map((letter) => letter.charCodeAt(0));
  const pack = (size: number, write: (view: DataView) => void): void => {
    const view = new DataView(new ArrayBuffer(size));
    write(view);
    bytes.push(...new Uint8Array(view.buffer));
  };
  for (let i = 0; i < groups.length; i += 2) {
    const code = Number(groups[i]);
    const value = groups[i + 1]!;
    if (!isOld) pack(2, (view) => view.setInt16(0, code, true));
    else if (code < 255) bytes.push(code);
    else {
      bytes.push(255);
      pack(2, (view) => view.setInt16(0, code, true));
    }
    if (DOUBLES.has(code)) pack(8, (view) => view.setFloat64(0, Number(value), true));
    else if (SHORTS.has(code)) pack(2, (view) => view.setInt16(0, Number(value), true));
    else if (LONGS.has(code)) pack(4, (view) => view.setInt32(0, Number(value), true));
    else if (code === 290) bytes.push(Number(value));
    else if (code === 310) bytes.push(String(value).length, ...new TextEncoder().encode(String(value)));
    else bytes.push(...new TextEncoder().encode(String(value)), 0);
  }
  return Uint8Array.from(bytes);
}
