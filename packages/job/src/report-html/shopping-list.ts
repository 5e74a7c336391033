import type { Guide } from '../guide-of.ts';
import type { Report } from '../report-schema.ts';
import { type Html, html } from './html.ts';
import { mm, money } from './numbers.ts';

/** A box to tick by hand. */
export function tick(words: string): Html {
  return html`<span><span class="tick" aria-hidden="true"></span>${words}</span>`;
}

/** What the whole job takes: boards and offcuts, paint tin by tin, glue. */
export function shoppingList(report: Report, guides: ReadonlyMap<string, Guide>): Html {
  const lines = [...boardLines(report), ...paintLines(report), ...glueLines(report, guides)];
  return lines.length === 0
    ? html`<p>Nothing was laid out.</p>`
    : html`<ul class="shopping">${lines.map(
        (line) => html`<li>${tick(line)}</li>
`,
      )}</ul>`;
}

function boardLines({ sheets, stocks }: Report): string[] {
  const kinds = new Map<string, { readonly sheet: Report['sheets'][number]; count: number }>();
  for (const sheet of sheets) {
    const key = `${sheet.material} ${sheet.stock}`;
    const kind = kinds.get(key);
    if (kind === undefined) kinds.set(key, { sheet, count: 1 });
    else kind.count++;
  }
  return [...kinds.values()].map(({ sheet, count }) => {
    const stock = stocks.find(({ id }) => id === sheet.material);
    const material = [stock?.material ?? '', stock === undefined ? '' : `${mm(stock.thickness)} mm thick`].filter(
      (word) => word !== '',
    );
    return `${count} x ${sheet.stock}, ${mm(sheet.width)} x ${mm(sheet.height)} mm${material.length === 0 ? '' : `, ${material.join(', ')}`}`;
  });
}

function paintLines({ paintPlan, designs, cost }: Report): string[] {
  const tins = new Map<string, { millilitres: number; money: number }>();
  for (const plan of paintPlan.colours) {
    if (plan.colour === null) continue;
    const count = designs.find(({ id }) => id === plan.design)?.count ?? 1;
    const name = plan.tin ?? `paint ${plan.colour}`;
    const before = tins.get(name) ?? { millilitres: 0, money: 0 };
    tins.set(name, {
      millilitres: before.millilitres + plan.millilitres * count,
      money: before.money + plan.money * count,
    });
  }
  return [...tins].map(
    ([name, tin]) =>
      `${name}: ${tin.millilitres < 10 ? tin.millilitres.toFixed(1) : tin.millilitres.toFixed(0)} ml${tin.money > 0 ? ` (${money(tin.money, cost.currency)})` : ''}`,
  );
}

function glueLines({ designs }: Report, guides: ReadonlyMap<string, Guide>): string[] {
  const glues = new Map<string, number>();
  for (const [id, guide] of guides) {
    const count = designs.find((design) => design.id === id)?.count ?? 1;
    const ml = guide.steps.reduce((sum, step) => sum + step.glueMl, 0) * count;
    const { name } = guide.input.glue;
    if (ml > 0) glues.set(name, (glues.get(name) ?? 0) + ml);
  }
  return [...glues].map(([name, ml]) => `${name}: ${ml < 10 ? ml.toFixed(1) : ml.toFixed(0)} ml`);
}
