import { useEffect, useRef } from 'react';
import { frameOf, paintOf } from '../picture/pictures.ts';
import type { HungSheet } from '../picture/wall.ts';
import type { WorldPoint } from '../scene/scene.tsx';
import type { ArtworkView, BoardsView, StageId } from '../workers/views.ts';

/** How long a piece is on its way, and how much later the next one starts, ms. */
const WAY_MS = 850;
const NEXT_MS = 9;
const LAST_START_MS = 350;
/** More pieces than this would be a swarm. */
const MOST_PIECES = 120;

/** Stages that show the sign: from them the pieces slide onto the boards. */
const OF_SIGN: ReadonlySet<StageId | null> = new Set<StageId>(['artwork', 'stack', 'split']);

/** Signs whose pieces have slid already. */
const slid = new WeakSet<ArtworkView>();

/** Do the pieces slide now? Once for each sign, for whoever comes from it to the boards; never for those who ask for no motion. */
export function slidesNow(from: StageId | null, artwork: ArtworkView | null, boards: BoardsView | null): boolean {
  if (artwork === null || boards === null || slid.has(artwork) || !OF_SIGN.has(from)) return false;
  const pieces = boards.sheets.reduce((sum, { placements }) => sum + placements.length, 0);
  return pieces <= MOST_PIECES && !window.matchMedia('(prefers-reduced-motion: reduce)').matches;
}

/** Over the wall of boards: every piece on its way from the sign, put together in the middle, to its place. */
export function SlideIn({
  artwork,
  boards,
  hung,
  middle,
  project,
  onDone,
}: {
  readonly artwork: ArtworkView;
  readonly boards: BoardsView;
  readonly hung: readonly HungSheet[];
  /** Of what is in sight, mm. */
  readonly middle: WorldPoint;
  project(x: number, y: number): WorldPoint;
  onDone(): void;
}) {
  const pieces = useRef<SVGGElement>(null);
  const corner = project(0, 0);
  const scale = project(1, 0).x - corner.x;
  const frame = frameOf(artwork);
  const at = project(middle.x, middle.y);
  const start = `translate(${at.x - (scale * (frame.minX + frame.maxX)) / 2}px, ${at.y - (scale * (frame.minY + frame.maxY)) / 2}px) rotate(0deg) scale(${scale}, ${scale})`;
  const kinds = new Map(boards.kinds.map((kind) => [kind.pieceId, kind]));
  const ways = hung.flatMap(({ x, y, sheet }) =>
    sheet.placements.flatMap((placement) => {
      const kind = kinds.get(placement.pieceId);
      if (kind === undefined) return [];
      const to = project(x + placement.x, y + placement.y);
      const end = `translate(${to.x}px, ${to.y}px) rotate(${placement.turnDeg}deg) scale(${placement.mirrored ? -scale : scale}, ${scale})`;
      return [{ id: placement.id, d: kind.d, paint: paintOf(kind.paint), end }];
    }),
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: the way of a piece is set when it starts
  useEffect(() => {
    slid.add(artwork);
    const moves = [...(pieces.current?.children ?? [])].map((piece, index) =>
      piece.animate([{ transform: start }, { transform: ways[index]?.end ?? start }], {
        duration: WAY_MS,
        delay: Math.min(index * NEXT_MS, LAST_START_MS),
        easing: 'cubic-bezier(0.5, 0, 0.2, 1)',
        fill: 'both',
      }),
    );
    let isLeft = false;
    void Promise.allSettled(moves.map(({ finished }) => finished)).then(() => {
      if (!isLeft) onDone();
    });
    return () => {
      isLeft = true;
      for (const move of moves) move.cancel();
    };
  }, []);

  return (
    <svg className="slide-in" aria-hidden="true">
      {hung.map(({ x, y, sheet, index }) => {
        const board = project(x, y);
        return (
          <path
            key={index}
            className="slide-board"
            d={sheet.outline}
            transform={`translate(${board.x} ${board.y}) scale(${scale})`}
          />
        );
      })}
      <g ref={pieces}>
        {ways.map(({ id, d, paint }) => (
          <path
            key={id}
            className="slide-piece"
            d={d}
            fillRule="evenodd"
            style={{ transform: start, fill: paint === 'wood' ? 'var(--wood)' : paint }}
          />
        ))}
      </g>
    </svg>
  );
}
