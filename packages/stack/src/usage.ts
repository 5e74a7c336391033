import type { ColourUse } from '@underlap/artwork/colour-key';
import { colourUses } from '@underlap/artwork/colour-key';
import type { DrawnShape, Process } from '@underlap/artwork/drawing';
import type { Meaning } from './meaning.ts';

/** What one colour or layer of a drawing was taken for. */
export interface Use {
  readonly by: 'colour' | 'layer';
  /** `#rrggbb`, or the layer's name. */
  readonly name: string;
  /** Null for layers, which may hold both. */
  readonly usedAs: ColourUse['usedAs'] | null;
  readonly shapes: number;
  /** `mixed`: its shapes were taken for different things. */
  readonly process: Process | 'paint' | 'ignore' | 'mixed';
  readonly toldBy: Meaning['toldBy'];
  readonly reason: string;
}

/**
 * Colours, longest lines first, and layers in drawing order (where there are several), each with what its shapes were taken for.
 * @param shapes - all of the drawing. @param meaningOf - what the sign was made from, so that this cannot differ from the plan.
 */
export function usesOf(shapes: readonly DrawnShape[], meaningOf: (shape: DrawnShape) => Meaning): Use[] {
  const colours = colourUses({ shapes }).map(({ colour, usedAs }): Use => {
    const own = shapes.filter((shape) =>
      usedAs === 'line' ? shape.fill === null && shape.stroke === colour : shape.fill === colour,
    );
    return { by: 'colour', name: colour, usedAs, ...taken(own, meaningOf) };
  });
  const layers = new Map<string | null, DrawnShape[]>();
  for (const shape of shapes) {
    const own = layers.get(shape.layer);
    if (own === undefined) layers.set(shape.layer, [shape]);
    else own.push(shape);
  }
  const named = [...layers].flatMap(([layer, own]): Use[] =>
    layer === null ? [] : [{ by: 'layer', name: layer, usedAs: null, ...taken(own, meaningOf) }],
  );
  const isSeveral = layers.size > 1 || named.some(({ toldBy }) => toldBy !== 'geometry');
  return [...colours, ...(isSeveral ? named : [])];
}

function taken(
  shapes: readonly DrawnShape[],
  meaningOf: (shape: DrawnShape) => Meaning,
): Pick<Use, 'shapes' | 'process' | 'toldBy' | 'reason'> {
  const meanings = shapes.map(meaningOf);
  const [first] = meanings;
  const processes = new Set(meanings.map(({ process }) => process));
  if (first === undefined || processes.size > 1)
    return { shapes: shapes.length, process: 'mixed', toldBy: 'geometry', reason: mixedWords([...processes]) };
  return { shapes: shapes.length, process: first.process, toldBy: first.toldBy, reason: first.reason };
}

function mixedWords(processes: readonly string[]): string {
  return `its shapes are taken for different things: ${processes.join(', ')}`;
}
