import type { Report } from '../report-schema.ts';
import { type Html, html } from './html.ts';
import { money } from './numbers.ts';

/** Every order with its signs, its share of the cost, and the kit list: what to gather from which sheets. */
export function orderTable(report: Report): Html {
  const names = new Map(report.sheets.map((sheet) => [sheet.id, sheetName(sheet)]));
  const named = (ids: readonly string[]) => ids.map((id) => names.get(id) ?? id).join(', ');
  const { currency } = report.cost;
  return html`<div class="scroll"><table><caption>By order: boards and machine time are shared by the area of the pieces, the rest by signs.</caption><thead><tr><th scope="col">Order</th><th scope="col">Designs</th><th scope="col" class="n">Signs</th><th scope="col" class="n">Pieces to cut</th><th scope="col">Sheets</th><th scope="col" class="n">Cost</th><th scope="col" class="n">Price</th></tr></thead><tbody>
${report.orders.map(
  (order) => html`<tr><th scope="row">${order.order === '' ? 'without a name' : order.order}</th><td>${order.designs
    .map(({ id, count }) => `${count} x ${id}`)
    .join(
      ', ',
    )}</td><td class="n">${order.signs}</td><td class="n">${order.pieces}</td><td>${named(order.sheets)}</td><td class="n">${money(order.cost, currency)}</td><td class="n">${money(order.price, currency)}</td></tr>
`,
)}</tbody></table></div>
${report.orders.map(
  (
    order,
  ) => html`<details><summary>Kit list of ${order.order === '' ? 'the order without a name' : order.order}</summary><div class="scroll"><table><thead><tr><th scope="col">Number</th><th scope="col">Piece</th><th scope="col" class="n">How many</th><th scope="col">On sheets</th></tr></thead><tbody>
${order.kit.map(
  (
    entry,
  ) => html`<tr><th scope="row">${entry.number}</th><td>${entry.piece}</td><td class="n">${entry.count}</td><td>${named(entry.sheets)}</td></tr>
`,
)}</tbody></table></div></details>
`,
)}`;
}

/** A sheet as it is called in tables: its number, with its stock when there are several. */
export function sheetName({ number, material }: Pick<Report['sheets'][number], 'number' | 'material'>): string {
  return material === '' ? String(number) : `${material} ${number}`;
}
