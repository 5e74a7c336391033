import type { XmlNode } from './xml-tree.ts';

/** Target of `url(#id)` or of `href="#id"`; null when it points outside the file. */
export function localReference(text: string): string | null {
  const match = /^(?:url\(\s*["']?)?#([^"')]+)["']?\s*\)?/.exec(text.trim());
  return match === null ? null : match[1]!.trim();
}

/** `href` or its older, prefixed spelling. */
export function hrefOf(node: XmlNode): string | null {
  const plainHref = node.attributes.href;
  if (plainHref !== undefined) return plainHref;
  for (const name in node.attributes) if (name.endsWith(':href')) return node.attributes[name]!;
  return null;
}
