import { useEffect, useRef, useState } from "preact/hooks";
import type { RefObject } from "preact";

/** How wide an element stands, so that a drawing keeps the size of its letters. */
export function useWidth<T extends Element>(before: number): [RefObject<T | null>, number] {
  const ref = useRef<T | null>(null);
  const [width, setWidth] = useState(before);
  useEffect(() => {
    const element = ref.current;
    if (!element) return;
    const take = () => setWidth(Math.max(240, Math.round(element.getBoundingClientRect().width)) || before);
    take();
    const watch = new ResizeObserver(take);
    watch.observe(element);
    return () => watch.disconnect();
  }, [before]);
  return [ref, width];
}
