import { trusted } from './html.ts';

/** The page's own style: paper and ink, the sign's colours the only loud ones; prints on A4 and Letter alike. */
export const STYLE = trusted(`
:root { color-scheme: light; --ink: #22252a; --quiet: #5a6069; --rule: #c9ccd1; --paper: #fffdf8; --board: #efe3cd; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 2rem 1.5rem 4rem; max-width: 62rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 system-ui, sans-serif; font-variant-numeric: tabular-nums; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 2.5rem 0 .75rem; padding-top: .75rem; border-top: 1px solid var(--rule); }
p, ul, ol { margin: .5rem 0; max-width: 46rem; }
.lead { color: var(--quiet); }
.figures { display: grid; grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr)); gap: 1rem; margin: 1.25rem 0; padding: 0; }
.figures div { border-top: 3px solid var(--ink); padding-top: .35rem; }
.figures dt { color: var(--quiet); font-size: .85rem; }
.figures dd { margin: 0; font-size: 1.35rem; line-height: 1.25; }
figure { margin: 1rem 0; }
figure svg { display: block; width: 100%; height: auto; background: #fff; border: 1px solid var(--rule); }
figcaption { color: var(--quiet); font-size: .9rem; margin-top: .35rem; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(20rem, 1fr)); gap: 1rem; align-items: start; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin: .75rem 0; font-size: .93rem; }
caption { text-align: left; color: var(--quiet); padding-bottom: .35rem; }
th, td { text-align: left; padding: .3rem .75rem .3rem 0; border-bottom: 1px solid var(--rule); vertical-align: top; }
td.n, th.n { text-align: right; }
td.n, .nowrap { white-space: nowrap; }
.swatch { display: inline-block; width: .9em; height: .9em; border: 1px solid var(--quiet); vertical-align: -.1em; margin-right: .4em;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.verdict { border-left: 6px solid var(--ink); padding: .25rem 0 .25rem .9rem; margin: 1rem 0; }
.attention { border-left: 6px double #9a3412; padding: .25rem 0 .25rem .9rem; margin: 1rem 0; }
.legend { display: flex; flex-wrap: wrap; gap: .25rem 1.5rem; font-size: .9rem; color: var(--quiet); list-style: none; padding: 0; }
.legend svg { display: inline-block; width: 3.2rem; height: .9rem; border: 0; background: none; vertical-align: -.1em; margin-right: .4rem; }
.tick { display: inline-block; width: 1em; height: 1em; border: 1.5px solid var(--ink); border-radius: .15em; vertical-align: -.12em; margin-right: .4em; background: #fff; }
.ticks span + span { margin-left: 1.2rem; }
.sheet-page { margin: 1.5rem 0 2.5rem; }
.sheet-page header { display: grid; grid-template-columns: auto 1fr auto; gap: 0 1.25rem; align-items: start; margin-bottom: .6rem; }
.sheet-page header p { margin: .15rem 0; }
.sheet-page > svg { display: block; width: 100%; height: auto; background: #fff; border: 1px solid var(--rule); }
.sheet-page .sheet-number { font-size: 3.2rem; line-height: 1; font-weight: 700; margin: 0; max-width: 9rem; }
.sheet-page .sheet-time { text-align: right; font-size: 1.35rem; line-height: 1.25; max-width: 12rem; }
.sheet-time small { display: block; color: var(--quiet); font-size: .8rem; }
.loadings { padding-left: 1.4rem; max-width: none; }
.pieces { max-width: none; }
.shopping { list-style: none; padding: 0; columns: 2 18rem; max-width: none; }
.shopping li { break-inside: avoid; padding: .15rem 0; }
.beside { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(20rem, 100%), 1fr)); gap: 0 1.5rem; align-items: start; }
h3 { font-size: 1.02rem; line-height: 1.3; margin: .2rem 0 .4rem; }
.colours { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(15rem, 100%), 1fr)); gap: 0 1rem; align-items: start; }
.colours figure { margin: .5rem 0; break-inside: avoid; }
.steps { list-style: none; padding: 0; margin: 1rem 0; max-width: none; display: grid; grid-template-columns: repeat(auto-fill, minmax(min(24rem, 100%), 1fr)); gap: 1.25rem; align-items: start; }
.step { border-top: 2px solid var(--ink); padding-top: .6rem; max-width: none; }
.step.wide { grid-column: 1 / -1; display: grid; grid-template-columns: repeat(auto-fit, minmax(min(22rem, 100%), 1fr)); gap: .25rem 1.25rem; align-items: start; }
.step-picture svg { display: block; width: 100%; height: auto; max-height: 22rem; background: #fff; border: 1px solid var(--rule); }
.step-words p { margin: .3rem 0; }
.step-number { display: inline-block; min-width: 1.9em; padding: 0 .35em; border: 2px solid var(--ink); border-radius: 1em; text-align: center; font-variant-numeric: tabular-nums; }
@media (max-width: 40rem) { .sheet-page header { grid-template-columns: auto 1fr; } .sheet-page .sheet-time { grid-column: 1 / -1; text-align: left; max-width: none; } body { padding: 1.25rem 1rem 3rem; } }
footer { margin-top: 3rem; border-top: 1px solid var(--rule); padding-top: .75rem; color: var(--quiet); font-size: .85rem; }
@page { size: auto; margin: 12mm 12mm; }
@media print {
  body { padding: 0; max-width: none; background: #fff; font-size: 10pt; }
  h2 { break-after: avoid; margin-top: 1.2rem; }
  figure, tr, .figures div, .verdict, .attention, li { break-inside: avoid; }
  thead { display: table-header-group; }
  .pair figure svg { max-height: 78mm; }
  figure > svg { max-height: 108mm; width: 100%; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .pair { grid-template-columns: 1fr 1fr; }
  .scroll { overflow: visible; }
  .many table { font-size: 6.4pt; }
  .many th, .many td { padding-right: .2rem; overflow-wrap: anywhere; }
  .steps { grid-template-columns: 1fr 1fr; gap: 5mm 7mm; }
  .step { break-inside: avoid; padding-top: 2mm; font-size: 9.5pt; line-height: 1.35; }
  .step.wide { grid-template-columns: 1fr 1fr; }
  .step-picture svg { max-height: 62mm; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .cautions { break-inside: avoid; }
  .sheets { break-before: page; }
  .sheets > h2 { display: none; }
  .sheet-page { margin: 0; break-before: page; break-inside: avoid; }
  .sheets > h2 + .sheet-page, .sheets > h2 + svg + .sheet-page { break-before: auto; }
  .sheets + section { break-before: page; }
  .sheets + section h2 { border-top: 0; margin-top: 0; }
  .sheet-page .sheet-number { font-size: 34pt; }
  .sheet-page > svg { max-height: 178mm; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .shopping { columns: 2; }
  .colours { grid-template-columns: 1fr 1fr 1fr; }
  .colours figure > svg { max-height: 52mm; }
  .beside { grid-template-columns: 1fr 1fr; }
  .beside figure svg { max-height: 70mm; }
}
`);
