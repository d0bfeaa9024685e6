// The firing picture in its pane: the server's drawing, put in place whole when it comes; it tells the pane's size so that letters keep theirs.
import { useSignalEffect } from "@preact/signals";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { t } from "../../words";
import { useDesk } from "./desk_context";

const RESIZED_AFTER_MS = 150;
const NARROWEST_PX = 320;
const PAGE_EDGE_PX = 17;

export function PicturePane() {
  const desk = useDesk();
  const box = useRef<HTMLDivElement>(null);
  const shown = useRef<SVGSVGElement | null>(null);
  useLayoutEffect(() => {
    const now = box.current;
    if (now) desk.paneIs(sizeOf(now));
  }, [desk]);
  useEffect(() => watched(box.current, () => box.current && desk.paneIs(sizeOf(box.current))), [desk]);
  useSignalEffect(() => {
    const next = desk.shown.value?.picture ?? null;
    if (!box.current || next === shown.current) return;
    shown.current = next;
    if (next) box.current.replaceChildren(next);
    else box.current.replaceChildren();
  });
  return <div ref={box} class="picture" tabIndex={0} role="group" aria-label={t("firing.picture.label")} />;
}

function sizeOf(box: HTMLElement): { width: number; height: number } {
  const scrolls = getComputedStyle(box).overflowY === "auto";
  // Out of sight on a small screen it will get the width of the window.
  const width = box.clientWidth || document.documentElement.clientWidth - 2 * PAGE_EDGE_PX;
  return { width: Math.max(NARROWEST_PX, Math.floor(width)), height: scrolls ? Math.floor(box.clientHeight) : 0 };
}

/** Calls back when a box has another size for a moment; returns the way to stop. */
function watched(box: Element | null, changed: () => void): () => void {
  if (!box || typeof ResizeObserver === "undefined") return () => {};
  let timer: ReturnType<typeof setTimeout> | undefined;
  const observer = new ResizeObserver(() => {
    clearTimeout(timer);
    timer = setTimeout(changed, RESIZED_AFTER_MS);
  });
  observer.observe(box);
  return () => {
    clearTimeout(timer);
    observer.disconnect();
  };
}
