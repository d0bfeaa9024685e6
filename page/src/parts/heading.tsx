import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { session } from "../state/session";
import { t } from "../words";

/** The one heading of a screen: names the page in the browser's title, and takes the focus when one arrives. */
export function Heading({ children, title, aside }: { children: ComponentChildren; title?: string; aside?: ComponentChildren }) {
  const named = title ?? (typeof children === "string" ? children : undefined);
  const lab = session.value?.lab.name;
  useEffect(() => {
    document.title = [named, lab, t("shell.name")].filter(Boolean).join(" · ");
  }, [named, lab]);
  return (
    <div class="heading">
      <h1 id="heading" tabIndex={-1}>
        {children}
      </h1>
      {aside ? <div class="heading-aside">{aside}</div> : null}
    </div>
  );
}
