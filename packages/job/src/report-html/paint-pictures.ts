import type { Guide } from '../guide-of.ts';
import { guidePicture } from './guide-picture.ts';
import { type Html, html } from './html.ts';
import { paintCell } from './tables.ts';

/** A picture a colour: its parts with their numbers among the others in pale, and what of them stays bare. */
export function paintPictures(designId: string, { input }: Guide): Html {
  const colours = input.paint.colours.filter(({ colour }) => colour !== null);
  return html`<div class="colours">${colours.map(({ colour, tin, partIds, coats }) => {
    const numbers = partIds.flatMap((id) => (input.pieces.get(id) ?? []).map(({ number }) => number));
    const words = `${tin ?? colour ?? ''}${designId === '' ? '' : ` for ${designId}`}: ${numbers.join(', ')}`;
    return html`<figure>${guidePicture({ kind: 'paint', partIds, down: [] }, input, words)}<figcaption>${paintCell(colour)} ${tin ?? ''} ${numbers.join(', ')}; ${coats} ${coats === 1 ? 'coat' : 'coats'}</figcaption></figure>
`;
  })}</div>
${input.paint.bare.length === 0 || colours.length === 0 ? null : html`<p class="lead">Pale with a dotted edge: stays bare, so that glue holds.</p>`}`;
}
