/** JSON that carries flat coordinate arrays: they come back as Float64Array. */
export function toFlatJson(value: unknown): string {
  return JSON.stringify(value, (_, item: unknown) => (item instanceof Float64Array ? { flat: [...item] } : item));
}

export function fromFlatJson(text: string): unknown {
  return JSON.parse(text, (_, item: unknown) => {
    if (typeof item !== 'object' || item === null || !('flat' in item) || !Array.isArray(item.flat)) return item;
    return Float64Array.from(item.flat as number[]);
  });
}
