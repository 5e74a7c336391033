import type { Bounds } from '@underlap/geometry/ring';
import { type KeyboardEvent, type ReactNode, useId, useMemo, useRef, useState } from 'react';
import type { Picture } from '../picture/ink.ts';
import { PathCache, thingAt } from '../picture/paint.ts';
import { usePalette } from '../picture/palette.ts';
import { toScreen, toWorld } from '../picture/viewport.ts';
import { useSay } from '../state/use-say.ts';
import type { LengthUnit } from '../units/length.ts';
import type { StageId } from '../workers/views.ts';
import { Canvas } from './canvas.tsx';
import { Ruler } from './ruler.tsx';
import { type PointerTools, useGestures } from './use-gestures.ts';
import { useSize } from './use-size.ts';
import { useSpot } from './use-spot.ts';
import { useViewport, type ViewportHand } from './use-viewport.ts';

export interface SceneTools {
  /** A hand takes something at a place (mm); true keeps the drag from panning. `reachMm` is what 12 px are here. */
  onGrab?(at: WorldPoint, key: string | null, reachMm: number): boolean;
  onDrag?(at: WorldPoint): void;
  onDrop?(at: WorldPoint): void;
  /** A click where nothing selectable lies. */
  onBlank?(at: WorldPoint, hand: ViewportHand): void;
  /** Keys the scene itself has no use for; true when used. */
  onKey?(event: KeyboardEvent): boolean;
}

export interface WorldPoint {
  readonly x: number;
  readonly y: number;
}

interface SceneProps {
  readonly stage: StageId;
  readonly picture: Picture;
  /** What the scene shows, for people who do not see it. */
  readonly label: string;
  readonly unit: LengthUnit;
  readonly selected: string | null;
  onSelect(key: string | null): void;
  readonly tools?: SceneTools;
  /** Things that lie on the drawing as page elements: pins, handles. `project` turns mm into px. */
  overlay?(project: (x: number, y: number) => { x: number; y: number }, hand: ViewportHand): ReactNode;
}

/** Reach of a pointer that grabs something thin, CSS px. */
const GRAB_PX = 12;
const KEY_PAN_PX = 60;
const LEAST_RING_PX = 44;

/** The main view: one drawing, true to scale, to zoom and pan by wheel, drag, pinch and keys. */
export function Scene({ stage, picture, label, unit, selected, onSelect, tools, overlay }: SceneProps) {
  const root = useRef<HTMLDivElement>(null);
  const size = useSize(root);
  const hand = useViewport(picture.bounds, size);
  const spot = useSpot(stage, picture, hand, size);
  const palette = usePalette();
  const helpId = useId();
  const say = useSay();
  const paths = useMemo(() => new PathCache(), []);
  const probe = useMemo(() => new OffscreenCanvas(1, 1).getContext('2d'), []);
  const [hovered, setHovered] = useState<string | null>(null);

  const keyAt = (at: WorldPoint): string | null => (probe === null ? null : thingAt(probe, paths, picture, at.x, at.y));
  const world = (at: WorldPoint): WorldPoint => toWorld(hand.view, size, at.x, at.y);
  const pointerTools: PointerTools = {
    onGrab: (at) => tools?.onGrab?.(world(at), keyAt(world(at)), GRAB_PX / hand.view.scale) ?? false,
    onDrag: (at) => tools?.onDrag?.(world(at)),
    onDrop: (at) => tools?.onDrop?.(world(at)),
    onClick: (at) => {
      spot.clear();
      const key = keyAt(world(at));
      if (key === null) tools?.onBlank?.(world(at), hand);
      onSelect(key);
    },
    onHover: (at) => setHovered(at === null ? null : keyAt(world(at))),
  };
  useGestures(root, hand, pointerTools);

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.target !== root.current || event.ctrlKey || event.metaKey || event.altKey) return;
    if (tools?.onKey?.(event) === true || sceneKey(event.key, hand, picture, selected, onSelect)) {
      event.preventDefault();
    }
  };
  const named = picture.things.find((thing) => thing.key === (hovered ?? selected));

  return (
    <div className="scene-frame">
      <div
        ref={root}
        className={hand.isFitted ? 'scene' : 'scene is-moved'}
        role="application"
        aria-label={label}
        aria-describedby={helpId}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: see above
        tabIndex={0}
        onKeyDown={onKeyDown}
      >
        <Canvas picture={picture} view={hand.view} size={size} palette={palette} />
        {size.width === 0 || spot.ring === null ? null : (
          <Ring box={spot.ring} project={(x, y) => toScreen(hand.view, size, x, y)} />
        )}
        {size.width === 0 ? null : overlay?.((x, y) => toScreen(hand.view, size, x, y), hand)}
      </div>
      <p id={helpId} className="only-read">
        {say.t('scene.keys')}
      </p>
      <div className="scene-foot">
        {size.width === 0 ? <span /> : <Ruler scale={hand.view.scale} unit={unit} />}
        <p className="scene-name">{named?.name ?? ''}</p>
        <div className="scene-buttons">
          <button type="button" onClick={() => hand.zoom(1.4)}>
            {say.t('scene.closer')}
          </button>
          <button type="button" onClick={() => hand.zoom(1 / 1.4)}>
            {say.t('scene.farther')}
          </button>
          <button
            type="button"
            onClick={() => {
              spot.clear();
              hand.fit();
            }}
          >
            {say.t('scene.whole')}
          </button>
        </div>
      </div>
    </div>
  );
}

/** A ring round what was asked to be shown; never smaller than a finger. */
function Ring({ box, project }: { readonly box: Bounds; project(x: number, y: number): { x: number; y: number } }) {
  const from = project(box.minX, box.minY);
  const to = project(box.maxX, box.maxY);
  const width = Math.max(to.x - from.x, LEAST_RING_PX);
  const height = Math.max(to.y - from.y, LEAST_RING_PX);
  const style = { left: (from.x + to.x - width) / 2, top: (from.y + to.y - height) / 2, width, height };
  return <span className="spot-ring" style={style} aria-hidden="true" />;
}

function sceneKey(
  key: string,
  hand: ViewportHand,
  picture: Picture,
  selected: string | null,
  onSelect: (key: string | null) => void,
): boolean {
  const choose = (step: 1 | -1): void => {
    const { things } = picture;
    if (things.length === 0) return;
    const at = things.findIndex((thing) => thing.key === selected);
    const next = things[at === -1 ? (step === 1 ? 0 : things.length - 1) : (at + step + things.length) % things.length];
    onSelect(next?.key ?? null);
  };
  const actions = new Map<string, () => void>([
    ['ArrowLeft', () => hand.pan(KEY_PAN_PX, 0)],
    ['ArrowRight', () => hand.pan(-KEY_PAN_PX, 0)],
    ['ArrowUp', () => hand.pan(0, KEY_PAN_PX)],
    ['ArrowDown', () => hand.pan(0, -KEY_PAN_PX)],
    ['+', () => hand.zoom(1.25)],
    ['=', () => hand.zoom(1.25)],
    ['-', () => hand.zoom(0.8)],
    ['0', () => hand.fit()],
    ['n', () => choose(1)],
    ['p', () => choose(-1)],
    ['Escape', () => onSelect(null)],
  ]);
  const action = actions.get(key);
  action?.();
  return action !== undefined;
}
