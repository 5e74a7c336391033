import { expose, transfer } from 'comlink';
import type { Picture } from './ink.ts';
import { type PackedPicture, unpackPicture } from './packed.ts';
import { type Palette, PathCache, paintInSteps, stepwiseContext } from './paint.ts';
import { PaintQueue } from './paint-queue.ts';
import type { Size, Viewport } from './viewport.ts';

/** One painting that is asked of the studio. */
export interface PaintOrder {
  /** Whose canvas it is for: pictures are remembered by it. */
  readonly easel: number;
  /** Null = the one painted last for this canvas. */
  readonly picture: PackedPicture | null;
  readonly view: Viewport;
  readonly size: Size;
  /** Device pixels per CSS pixel. */
  readonly pixelRatio: number;
  readonly palette: Palette;
  /** The scene in front comes before the small pictures. */
  readonly isUrgent: boolean;
}

/** Paints pictures beside the page's own thread. */
export interface Studio {
  /** @throws when the canvas has no picture yet and none is given. */
  paint(order: PaintOrder): Promise<ImageBitmap>;
  forget(easel: number): Promise<void>;
}

interface Stand {
  readonly picture: Pick<Picture, 'inks' | 'captions'>;
  readonly canvas: OffscreenCanvas;
  /** End the painting that is under way. */
  end(): void;
}

const turn = new MessageChannel();
let nextStep: () => void = () => undefined;
turn.port1.onmessage = () => nextStep();

/** Messages that came in meanwhile are heard before the next step. */
const queue = new PaintQueue(
  (step) => {
    nextStep = step;
    turn.port2.postMessage(null);
  },
  () => performance.now(),
);
const paths = new PathCache();
const stands = new Map<number, Stand>();

const studio: Studio = {
  paint: ({ easel, picture, view, size, pixelRatio, palette, isUrgent }) =>
    new Promise((resolve, reject) => {
      const known = stands.get(easel);
      const shown = picture === null ? known?.picture : unpackPicture(picture);
      const canvas = known?.canvas ?? new OffscreenCanvas(1, 1);
      const width = Math.max(Math.round(size.width * pixelRatio), 1);
      const height = Math.max(Math.round(size.height * pixelRatio), 1);
      if (canvas.width !== width) canvas.width = width;
      if (canvas.height !== height) canvas.height = height;
      const context = stepwiseContext(canvas);
      if (shown === undefined || context === null) {
        reject(new Error('there is nothing to paint, or nothing to paint on'));
        return;
      }
      const steps = paintInSteps({ context, size, pixelRatio, palette, paths }, shown, view);
      const done = (): void => {
        const bitmap = canvas.transferToImageBitmap();
        resolve(transfer(bitmap, [bitmap]));
      };
      const giveUp = queue.add(steps, isUrgent, done, reject);
      const end = (): void => {
        giveUp();
        reject(new Error('nobody waits for it any more'));
      };
      stands.set(easel, { picture: shown, canvas, end });
    }),
  forget: async (easel) => {
    stands.get(easel)?.end();
    stands.delete(easel);
  },
};

expose(studio);
