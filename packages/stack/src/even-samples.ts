/**
 * Points evenly spread along a line, half a step from its start.
 * @param line - x0, y0, x1, y1, ...; `closed`: its last vertex joins the first.
 * @returns at most `count` points. O(n + count).
 */
export function evenSamples(line: Float64Array, count: number, closed: boolean): Float64Array {
  const n = line.length;
  const last = closed ? n : n - 2;
  let total = 0;
  for (let i = 0; i < last; i += 2) {
    total += Math.hypot(line[(i + 2) % n]! - line[i]!, line[(i + 3) % n]! - line[i + 1]!);
  }
  const out = new Float64Array(2 * count);
  const step = total / count;
  let filled = 0;
  let next = step / 2;
  let walked = 0;
  for (let i = 0; i < last && filled < count; i += 2) {
    const ax = line[i]!;
    const ay = line[i + 1]!;
    const bx = line[(i + 2) % n]!;
    const by = line[(i + 3) % n]!;
    const length = Math.hypot(bx - ax, by - ay);
    while (filled < count && next <= walked + length) {
      const u = length === 0 ? 0 : (next - walked) / length;
      out[2 * filled] = ax + u * (bx - ax);
      out[2 * filled + 1] = ay + u * (by - ay);
      filled++;
      next += step;
    }
    walked += length;
  }
  return out.subarray(0, 2 * filled);
}
