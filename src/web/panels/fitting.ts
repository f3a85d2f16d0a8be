/** Sheets are drawn as large as there is room for them, at first and whenever the room changes. */
import { useEffect, type RefObject } from 'react';
import { PIXELS_PER_MM } from '../drawings/scale.ts';

/** @param fit of a module, so that it stays the same */
export function useFitting(box: RefObject<Element | null>, fit: (element: Element) => void): void {
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const look = () => fit(element);
    const observer = new ResizeObserver(look);
    observer.observe(element);
    look();
    return () => observer.disconnect();
  }, [box, fit]);
}

/** Tells the width of a panel, whole mm, and never less than this. */
export function widthInto(setSheetWidth: (width: number) => void, least = 0): (element: Element) => void {
  return (element) => {
    const { width } = element.getBoundingClientRect();
    if (width > 0) setSheetWidth(Math.max(least, Math.floor(width / PIXELS_PER_MM)));
  };
}
