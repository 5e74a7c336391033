import { type RefObject, useEffect, useState } from 'react';
import type { Size } from '../picture/viewport.ts';

/** The size of an element in CSS px, kept current; 0 x 0 until the browser has laid it out, which nothing here forces it to do. */
export function useSize(element: RefObject<HTMLElement | null>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useEffect(() => {
    const target = element.current;
    if (target === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const { width, height } = entry.contentRect;
      setSize((known) => (known.width === width && known.height === height ? known : { width, height }));
    });
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return size;
}
