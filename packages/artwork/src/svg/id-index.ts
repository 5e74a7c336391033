import type { XmlNode } from './xml-tree.ts';

/** Elements by their ids. Built at the first question: a drawing without references never needs it. */
export class IdIndex {
  private readonly root: XmlNode;
  private nodes: Map<string, XmlNode> | null = null;

  constructor(root: XmlNode) {
    this.root = root;
  }

  /** The first element of an id counts, as in browsers. */
  get(id: string): XmlNode | undefined {
    this.nodes ??= nodesById(this.root);
    return this.nodes.get(id) ?? this.nodes.get(decoded(id));
  }
}

/** References are URLs, in which letters beyond ASCII may be written as `%C3%B6`. */
function decoded(id: string): string {
  try {
    return id.includes('%') ? decodeURIComponent(id) : id;
  } catch (error) {
    if (error instanceof URIError) return id;
    throw error;
  }
}

function nodesById(root: XmlNode): Map<string, XmlNode> {
  const byId = new Map<string, XmlNode>();
  for (const node of allNodes(root)) {
    const { id } = node.attributes;
    if (id !== undefined && !byId.has(id)) byId.set(id, node);
  }
  return byId;
}

/** Every element, in document order. */
export function* allNodes(root: XmlNode): Generator<XmlNode> {
  const open: { readonly nodes: readonly XmlNode[]; next: number }[] = [{ nodes: [root], next: 0 }];
  for (let level = open.at(-1); level !== undefined; level = open.at(-1)) {
    const node = level.nodes[level.next++];
    if (node === undefined) open.pop();
    else {
      yield node;
      if (node.children.length > 0) open.push({ nodes: node.children, next: 0 });
    }
  }
}
