import { type Remote, wrap } from 'comlink';
import type { Picture } from './ink.ts';
import { packPicture } from './packed.ts';
import type { PaintOrder, Studio } from './painter.worker.ts';

/** What is to be seen on a canvas. */
export type Painting = Pick<PaintOrder, 'view' | 'size' | 'pixelRatio' | 'palette'> & { readonly picture: Picture };

/** One canvas of the page: it is painted one picture at a time, and of those that wait only the newest. */
export interface Easel {
  /** @param onPainted - gets the bitmap, which is then its own; not called for paintings that a newer one overtook. */
  paint(painting: Painting, onPainted: (bitmap: ImageBitmap) => void): void;
  /** The canvas is gone: what is still painted for it is thrown away. It may be painted again. */
  leave(): void;
}

interface Wish {
  readonly painting: Painting;
  readonly onPainted: (bitmap: ImageBitmap) => void;
}

/** The page's way to its painter, a thread of its own: drawing a wall of sheets never holds the page up. */
export class Painter {
  private studio: Remote<Studio> | null = null;
  private easels = 0;

  constructor(private readonly openStudio: () => Remote<Studio>) {}

  /** Let the thread start before the first picture is there. */
  prepare(): void {
    this.studio ??= this.openStudio();
  }

  /** @param isUrgent - the scene in front rather than a small picture. */
  easel(isUrgent: boolean): Easel {
    const id = this.easels++;
    let sent: Picture | null = null;
    let isBusy = false;
    let next: Wish | null = null;
    let visit = 0;

    const send = ({ painting, onPainted }: Wish): void => {
      this.prepare();
      const { studio } = this;
      if (studio === null) return;
      const mine = visit;
      const { picture, ...rest } = painting;
      const order = { ...rest, easel: id, picture: picture === sent ? null : packPicture(picture), isUrgent };
      sent = picture;
      isBusy = true;
      studio
        .paint(order)
        .then((bitmap) => {
          if (mine === visit) onPainted(bitmap);
          else bitmap.close();
        })
        .catch(() => {
          sent = null;
        })
        .finally(() => {
          if (mine !== visit) return;
          isBusy = false;
          const waiting = next;
          next = null;
          if (waiting !== null) send(waiting);
        });
    };

    return {
      paint: (painting, onPainted) => {
        if (isBusy) next = { painting, onPainted };
        else send({ painting, onPainted });
      },
      leave: () => {
        visit += 1;
        isBusy = false;
        next = null;
        sent = null;
        void this.studio?.forget(id).catch(() => undefined);
      },
    };
  }
}

/** The painter of this page. */
export const pagePainter = new Painter(() =>
  wrap<Studio>(new Worker(new URL('./painter.worker.ts', import.meta.url), { type: 'module' })),
);
