/** Plain-text table: first row is the head; numbers to the right. */
export function table(rows: readonly (readonly string[])[]): string {
  const columns = Math.max(...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, at) => Math.max(...rows.map((row) => (row[at] ?? '').length)));
  const isNumeric = widths.map((_, at) =>
    rows.slice(1).every((row) => /^[-+]?[\d.,]*( ?(%|mm|s))?$/.test(row[at] ?? '')),
  );
  const line = (row: readonly string[]) =>
    widths
      .map((width, at) => (isNumeric[at] === true ? (row[at] ?? '').padStart(width) : (row[at] ?? '').padEnd(width)))
      .join('  ')
      .trimEnd();
  const [head, ...body] = rows;
  return [line(head ?? []), widths.map((width) => '-'.repeat(width)).join('  '), ...body.map(line)].join('\n');
}
