import seedrandom from 'seedrandom';

/** Curves in the outline of every part: about five kilobytes of path data each. */
const CURVES = 90;

/**
 * A stacked picture as large as people draw them: a backer and waves that lie on it and on each other, all with many curves.
 * 951 parts make a file of about 5 MB. The same count gives the same drawing.
 */
export function manyParts(parts: number): string {
  const random = seedrandom('many parts');
  const columns = Math.ceil(Math.sqrt((parts - 1) * 1.5));
  const step = 1150 / columns;
  const waves = Array.from({ length: parts - 1 }, (_, i) => {
    const x = 25 + ((i % columns) + 0.5 + (random() - 0.5) * 0.4) * step;
    const y = 25 + (Math.floor(i / columns) + 0.5 + (random() - 0.5) * 0.4) * step;
    const radius = step * (0.45 + random() * 0.25);
    const tone = (i * 7919).toString(16).padStart(6, '0').slice(-6);
    return `<path id="wave-${i}" style="fill:#${tone};stroke:none" d="${wavy(x, y, radius, random)}"/>`;
  });
  const backer = `<path id="backer" style="fill:#7fb2c8;stroke:none" d="${wavy(600, 420, 390, random)}"/>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="1200mm" height="840mm" viewBox="0 0 1200 840">${backer}\n${waves.join('\n')}</svg>`;
}

/** A closed outline of small waves round a place. */
function wavy(x: number, y: number, radius: number, random: () => number): string {
  const at = (turn: number, reach: number): string =>
    `${(x + Math.cos(turn) * reach).toFixed(6)} ${(y + Math.sin(turn) * reach).toFixed(6)}`;
  const turnOf = (k: number): number => (k / CURVES) * 2 * Math.PI;
  const lobes = Array.from({ length: CURVES }, () => radius * (0.97 + random() * 0.06));
  const curves = lobes.map((_, k) => {
    const [from, to] = [lobes[k]!, lobes[(k + 1) % CURVES]!];
    const third = (turnOf(k + 1) - turnOf(k)) / 3;
    return `C${at(turnOf(k) + third, from * 1.02)} ${at(turnOf(k) + 2 * third, to * 0.98)} ${at(turnOf(k + 1), to)}`;
  });
  return `M${at(0, lobes[0]!)}${curves.join('')}Z`;
}
