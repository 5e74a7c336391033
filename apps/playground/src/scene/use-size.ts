import { type RefObject, useLayoutEffect, useState } from 'react';
import type { Size } from './viewport.ts';

/** The size of an element in CSS px, kept current. */
export function useSize(element: RefObject<HTMLElement | null>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const target = element.current;
    if (target === null) return;
    const measure = (): void => {
      const { clientWidth: width, clientHeight: height } = target;
      setSize((known) => (known.width === width && known.height === height ? known : { width, height }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return size;
}
