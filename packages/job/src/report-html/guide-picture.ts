import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Point } from '@underlap/geometry/point';
import { type Region, regionBounds } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import type { GuideInput, GuidePiece, GuideSeam, GuideStep } from '@underlap/shop/guide-step';
import type { Part } from '@underlap/stack/sign';
import { boundsOf, inkOf, viewBoxOf } from './frame.ts';
import { type Html, html } from './html.ts';
import { coordinate } from './numbers.ts';
import { numberText } from './split-picture.ts';

/** Fill of a part without a paint colour. */
const BARE = '#e8d9bd';

/** How far pieces are pulled apart in a picture of a join, as a share of the picture. */
const APART = 0.035;

/** What of a step a picture is made of. */
export type PicturedStep = Pick<GuideStep, 'kind' | 'partIds' | 'down'>;

/** One step as a picture: what is down in pale, what comes on in full colour with its numbers, the glued faces shaded with a dotted edge. */
export function guidePicture(step: PicturedStep, input: GuideInput, title: string): Html {
  const parts = input.places.filter(({ part }) => part.place === 'assembled').map(({ part }) => part);
  const seen = step.kind === 'join' ? parts.filter((part) => step.partIds.includes(part.id)) : parts;
  const bounds = boundsOf(seen.map((part) => part.shape));
  const ink = inkOf(bounds);
  const room = (step.kind === 'join' ? 30 : 8) * ink;
  const content =
    step.kind === 'join'
      ? joinContent(step, input, ink)
      : step.kind === 'lay'
        ? layContent(step, input, ink)
        : paintContent(step, parts, input, ink);
  return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${title}" viewBox="${viewBoxOf(bounds, room)}">${content}</svg>`;
}

function layContent(step: PicturedStep, input: GuideInput, ink: number): Html {
  const own = new Set(step.partIds);
  const down = new Set(step.down);
  const parts = input.places.map(({ part }) => part);
  const contacts = input.places
    .filter(({ part }) => own.has(part.id))
    .flatMap(({ gluedTo }) => gluedTo.flatMap(({ regions }) => regions));
  return html`${parts.filter((part) => down.has(part.id)).map((part) => face(part, 0.28, 0.5 * ink, '#8a8f98'))}
${parts.filter((part) => own.has(part.id)).map((part) => face(part, 1, 1.6 * ink, '#22252a'))}
${contacts.map(
  (region) =>
    html`<path d="${regionData(region)}" fill="#22252a" fill-opacity=".16" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(0.9 * ink)}" stroke-dasharray="${coordinate(2.5 * ink)} ${coordinate(2.5 * ink)}"/>`,
)}
${step.partIds.flatMap((partId) => (input.pieces.get(partId) ?? []).map((piece) => pieceNumber(piece, ink, { x: 0, y: 0 }, 16)))}`;
}

function joinContent(step: PicturedStep, input: GuideInput, ink: number): Html {
  const [partId] = step.partIds as [string];
  const pieces = input.pieces.get(partId) ?? [];
  const seams = input.seams.get(partId) ?? [];
  const paint = input.places.find(({ part }) => part.id === partId)?.part.paint ?? null;
  const middle = centreOf(pieces.map(({ region }) => region));
  const moves = new Map(
    pieces.map((piece) => {
      const own = centreOf([piece.region]);
      const far = Math.hypot(own.x - middle.x, own.y - middle.y);
      const by = far < 1 ? 0 : (500 * ink * APART) / far;
      return [piece.number, { x: (own.x - middle.x) * by, y: (own.y - middle.y) * by }];
    }),
  );
  return html`${pieces.map((piece) => {
    const move = moves.get(piece.number)!;
    return html`<path transform="translate(${coordinate(move.x)} ${coordinate(move.y)})" d="${regionData(piece.region)}" fill="${paint ?? BARE}" fill-opacity=".55" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(1.4 * ink)}"/>
`;
  })}
${(input.plates.get(partId) ?? []).map((plate) => html`<path d="${regionData(plate.region)}" fill="#ffffff" fill-opacity=".35" stroke="#22252a" stroke-width="${coordinate(1.2 * ink)}" stroke-dasharray="${coordinate(6 * ink)} ${coordinate(4 * ink)}"/>${pieceNumber(plate, ink, { x: 0, y: 0 }, 12)}`)}
${seams.map((seam) => seamArrows(seam, moves, ink))}
${pieces.map((piece) => pieceNumber(piece, ink, moves.get(piece.number)!, 18))}`;
}

/** Arrows from both sides towards the seam, its letters, and a dot on every knob. */
function seamArrows(seam: GuideSeam, moves: ReadonlyMap<string, Point>, ink: number): Html {
  const at = { x: (seam.from.x + seam.to.x) / 2, y: (seam.from.y + seam.to.y) / 2 };
  const length = Math.hypot(seam.to.x - seam.from.x, seam.to.y - seam.from.y) || 1;
  const across = { x: -(seam.to.y - seam.from.y) / length, y: (seam.to.x - seam.from.x) / length };
  const arrow = (side: 1 | -1): Html => {
    const tip = { x: at.x + side * across.x * 16 * ink, y: at.y + side * across.y * 16 * ink };
    const tail = { x: at.x + side * across.x * 52 * ink, y: at.y + side * across.y * 52 * ink };
    const wing = (turn: 1 | -1) =>
      `${coordinate(tip.x + side * across.x * 11 * ink + turn * -across.y * 7 * ink)} ${coordinate(tip.y + side * across.y * 11 * ink + turn * across.x * 7 * ink)}`;
    const data = `M${coordinate(tail.x)} ${coordinate(tail.y)}L${coordinate(tip.x)} ${coordinate(tip.y)}M${wing(1)}L${coordinate(tip.x)} ${coordinate(tip.y)}L${wing(-1)}`;
    const stroke = (width: number, colour: string) =>
      html`<path d="${data}" fill="none" stroke="${colour}" stroke-width="${coordinate(width * ink)}" stroke-linecap="round" stroke-linejoin="round"/>`;
    return html`${stroke(6, '#ffffff')}${stroke(3, '#9a3412')}`;
  };
  const dots = seam.knobs.map(({ of, centre }) => {
    const move = moves.get(of) ?? { x: 0, y: 0 };
    return html`<circle cx="${coordinate(centre.x + move.x)}" cy="${coordinate(centre.y + move.y)}" r="${coordinate(3.2 * ink)}" fill="#9a3412" stroke="#ffffff" stroke-width="${coordinate(ink)}"/>`;
  });
  return html`${dots}${arrow(1)}${arrow(-1)}${numberText(seam.label, seam.from.x + (at.x - seam.from.x) * 0.35, seam.from.y + (at.y - seam.from.y) * 0.35, 13 * ink)}`;
}

function paintContent(step: PicturedStep, parts: readonly Part[], input: GuideInput, ink: number): Html {
  const own = new Set(step.partIds);
  return html`${parts.map((part) => face(part, own.has(part.id) ? 1 : 0.2, 0.7 * ink, '#22252a'))}
${input.paint.bare.filter(({ partId }) => own.has(partId)).flatMap(({ regions }) => regions.map((region) => bareFace(region, ink)))}
${parts.filter((part) => own.has(part.id)).flatMap((part) => (input.pieces.get(part.id) ?? []).map((piece) => pieceNumber(piece, ink, { x: 0, y: 0 }, 9)))}`;
}

/** What stays bare: pale, with a dotted edge. */
function bareFace(region: Region, ink: number): Html {
  return html`<path d="${regionData(region)}" fill="#ffffff" fill-opacity=".62" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(0.9 * ink)}" stroke-dasharray="${coordinate(2.5 * ink)} ${coordinate(2.5 * ink)}"/>
`;
}

function face(part: Part, opacity: number, width: number, stroke: string): Html {
  return html`<path d="${shapeToPathData(part.shape, 2)}" fill="${part.paint ?? BARE}" fill-opacity="${opacity}" fill-rule="evenodd" stroke="${stroke}" stroke-width="${coordinate(width)}" stroke-linejoin="round"/>
`;
}

/** The number in the roomiest place of its piece, smaller where there is little room. */
function pieceNumber(piece: GuidePiece, ink: number, move: Point, size: number): Html {
  const { minX, minY, maxX, maxY } = regionBounds(piece.region);
  const fits = Math.min(size * ink, Math.max(8 * ink, 0.9 * Math.max(maxX - minX, maxY - minY)));
  return numberText(piece.number, piece.centre.x + move.x, piece.centre.y + move.y, fits);
}

function centreOf(regions: readonly Region[]): Point {
  const boxes = regions.map(regionBounds);
  const minX = Math.min(...boxes.map((box) => box.minX));
  const maxX = Math.max(...boxes.map((box) => box.maxX));
  const minY = Math.min(...boxes.map((box) => box.minY));
  const maxY = Math.max(...boxes.map((box) => box.maxY));
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
}

/** A region as path data to a twentieth of a millimetre, near points left out. */
export function regionData(region: Region): string {
  return [region.outer, ...region.holes].map(ringData).join('');
}

function ringData(ring: Ring): string {
  const points: string[] = [];
  let lastX = Number.NaN;
  let lastY = Number.NaN;
  for (let i = 0; i < ring.length; i += 2) {
    const [x, y] = [ring[i]!, ring[i + 1]!];
    if (Math.hypot(x - lastX, y - lastY) < 0.15) continue;
    points.push(`${Number(x.toFixed(2))} ${Number(y.toFixed(2))}`);
    lastX = x;
    lastY = y;
  }
  return `M${points.join('L')}Z`;
}
