import seedrandom from 'seedrandom';

/** A made-up layered sign: artwork text and what is known about it without reading it. */
export interface RandomSign {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly elements: number;
}

/**
 * Draw a random layered sign as SVG: a free-form, round, oval or cornered backer, a banner, motifs, some of them with holes.
 * @param seed - the same seed draws the same sign.
 * @param width - width of the backer, mm.
 */
export function randomSign(seed: number, width: number, height: number): RandomSign {
  const random = seedrandom(`sign-${seed}`);
  const between = (low: number, high: number) => low + (high - low) * random();
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const colours = ['#0b3c5d', '#328cc1', '#d9b310', '#1d2731', '#e4572e', '#f3efe0', '#76b041', '#8e6c88'];
  const page = { width: width + 40, height: height + 20 };
  const cx = page.width / 2;
  const cy = page.height / 2;
  const elements: string[] = [];

  elements.push(`<path id="backer" fill="${pick(colours)}" fill-rule="evenodd" d="${backer()}"/>`);
  const banners = random() < 0.8 ? 1 : 2;
  for (let b = 0; b < banners; b++) {
    const y = cy + (banners === 1 ? between(-0.12, 0.12) : (b - 0.5) * 0.36) * height;
    elements.push(banner(`banner-${b + 1}`, y, between(36, 80), width * between(0.75, 1.05)));
  }
  const motifs = 3 + Math.floor(random() * 6);
  for (let m = 0; m < motifs; m++) elements.push(motif(`motif-${m + 1}`));
  const widthMm = page.width;
  const heightMm = page.height;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}">\n<g id="sign">\n${elements.join('\n')}\n</g>\n</svg>\n`;
  return { svg, widthMm, heightMm, elements: elements.length };

  function backer(): string {
    const rx = width / 2;
    const ry = height / 2;
    const slots = random() < 0.5 ? hole(cx - rx / 3, cy - ry * 0.72, 5) + hole(cx + rx / 3, cy - ry * 0.72, 5) : '';
    const kind = pick(['oval', 'box', 'blob', 'plaque']);
    if (kind === 'oval') return oval(cx, cy, rx, ry) + slots;
    if (kind === 'box') {
      const r = between(5, 40);
      return (
        `M${cx - rx + r} ${cy - ry}H${cx + rx - r}A${r} ${r} 0 0 1 ${cx + rx} ${cy - ry + r}V${cy + ry - r}` +
        `A${r} ${r} 0 0 1 ${cx + rx - r} ${cy + ry}H${cx - rx + r}A${r} ${r} 0 0 1 ${cx - rx} ${cy + ry - r}` +
        `V${cy - ry + r}A${r} ${r} 0 0 1 ${cx - rx + r} ${cy - ry}Z${slots}`
      );
    }
    if (kind === 'plaque') {
      const r = between(20, 60);
      return (
        `M${cx - rx + r} ${cy - ry}H${cx + rx - r}A${r} ${r} 0 0 0 ${cx + rx} ${cy - ry + r}V${cy + ry - r}` +
        `A${r} ${r} 0 0 0 ${cx + rx - r} ${cy + ry}H${cx - rx + r}A${r} ${r} 0 0 0 ${cx - rx} ${cy + ry - r}` +
        `V${cy - ry + r}A${r} ${r} 0 0 0 ${cx - rx + r} ${cy - ry}Z${slots}`
      );
    }
    const lobes = 8;
    const points = Array.from({ length: lobes }, (_, k) => {
      const angle = (2 * Math.PI * k) / lobes;
      const reach = between(0.86, 1);
      return { x: cx + rx * reach * Math.cos(angle), y: cy + ry * reach * Math.sin(angle) };
    });
    return smooth(points) + slots;
  }

  function hole(x: number, y: number, r: number): string {
    return `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
  }

  function oval(x: number, y: number, rx: number, ry: number): string {
    return `M${x - rx} ${y}A${rx} ${ry} 0 0 1 ${x + rx} ${y}A${rx} ${ry} 0 0 1 ${x - rx} ${y}Z`;
  }

  /** Closed Catmull-Rom curve as cubics. */
  function smooth(points: readonly { x: number; y: number }[]): string {
    const n = points.length;
    const at = (k: number) => points[((k % n) + n) % n]!;
    let d = `M${at(0).x.toFixed(3)} ${at(0).y.toFixed(3)}`;
    for (let k = 0; k < n; k++) {
      const [p, q, r, s] = [at(k - 1), at(k), at(k + 1), at(k + 2)];
      const c1 = { x: q.x + (r.x - p.x) / 6, y: q.y + (r.y - p.y) / 6 };
      const c2 = { x: r.x - (s.x - q.x) / 6, y: r.y - (s.y - q.y) / 6 };
      d += `C${[c1, c2, r].map((point) => `${point.x.toFixed(3)} ${point.y.toFixed(3)}`).join(' ')}`;
    }
    return `${d}Z`;
  }

  function banner(id: string, y: number, tall: number, wide: number): string {
    const colour = pick(colours);
    if (random() < 0.4) {
      return `<rect id="${id}" fill="${colour}" x="${cx - wide / 2}" y="${y - tall / 2}" width="${wide}" height="${tall}" rx="${between(0, 12)}"/>`;
    }
    const bend = between(-14, 14);
    const left = cx - wide / 2;
    const right = cx + wide / 2;
    return `<path id="${id}" fill="${colour}" d="M${left} ${y - tall / 2}Q${cx} ${y - tall / 2 - bend} ${right} ${y - tall / 2}V${y + tall / 2}Q${cx} ${y + tall / 2 - bend} ${left} ${y + tall / 2}Z"/>`;
  }

  function motif(id: string): string {
    const x = between(cx - width * 0.36, cx + width * 0.36);
    const y = between(cy - height * 0.36, cy + height * 0.36);
    const r = between(9, 38);
    const colour = pick(colours);
    const kind = pick(['disc', 'ring', 'star', 'leafless', 'tilted']);
    if (kind === 'disc') return `<circle id="${id}" fill="${colour}" cx="${x}" cy="${y}" r="${r}"/>`;
    if (kind === 'ring') {
      return `<path id="${id}" fill="${colour}" fill-rule="evenodd" d="${oval(x, y, r, r * 0.8)}${oval(x, y, r * 0.5, r * 0.4)}"/>`;
    }
    if (kind === 'tilted') {
      return `<rect id="${id}" fill="${colour}" x="${-r}" y="${-r / 2}" width="${2 * r}" height="${r}" transform="translate(${x} ${y}) rotate(${between(0, 180)})"/>`;
    }
    const spikes = kind === 'star' ? 5 : 3;
    const points = Array.from({ length: 2 * spikes }, (_, k) => {
      const reach = k % 2 === 0 ? r : r * 0.5;
      const angle = (Math.PI * k) / spikes;
      return { x: x + reach * Math.cos(angle), y: y + reach * Math.sin(angle) };
    });
    if (kind === 'star') {
      return `<polygon id="${id}" fill="${colour}" points="${points.map((point) => `${point.x.toFixed(2)},${point.y.toFixed(2)}`).join(' ')}"/>`;
    }
    return `<path id="${id}" fill="${colour}" d="${smooth(points)}"/>`;
  }
}
