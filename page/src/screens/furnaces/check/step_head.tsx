import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/** The question of a step: takes the focus when another one comes up, since the key that was pressed is gone by then. */
export function StepHead({ children, of }: { children: ComponentChildren; of: string }) {
  const head = useRef<HTMLHeadingElement>(null);
  const first = useRef(true);
  useLayoutEffect(() => {
    // On arrival the heading of the screen has it.
    if (!first.current) head.current?.focus();
    first.current = false;
  }, [of]);
  return (
    <h2 id="question" class="check-question" tabIndex={-1} ref={head}>
      {children}
    </h2>
  );
}
