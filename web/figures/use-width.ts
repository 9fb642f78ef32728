import { useEffect, useRef, useState } from 'preact/hooks';

/** The width in CSS pixels that an element has on the page; text drawn in it keeps its size. */
export function useWidth(first: number) {
  const element = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    if (!element.current) return;
    const watch = new ResizeObserver(([entry]) =>
      setWidth(Math.max(260, Math.round(entry!.contentRect.width))),
    );
    watch.observe(element.current);
    return () => watch.disconnect();
  }, []);
  return { element, width };
}
