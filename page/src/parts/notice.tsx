import type { ComponentChildren } from "preact";

/** A standing remark in the text: something to know, or something wrong. */
export function Notice({ title, children, kind = "know" }: { title?: string; children?: ComponentChildren; kind?: "know" | "wrong" }) {
  return (
    <div class={`notice notice-${kind}`} role={kind === "wrong" ? "alert" : undefined}>
      {title ? <p class="notice-title">{title}</p> : null}
      {children}
    </div>
  );
}
