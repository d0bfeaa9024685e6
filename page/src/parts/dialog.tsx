import type { ComponentChildren } from "preact";
import { useId, useLayoutEffect, useRef } from "preact/hooks";
import { t } from "../words";

export interface DialogProps {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
}

/** A question over the screen; Escape and the key at its corner close it, and the focus goes back to where it was. */
export function Dialog({ title, onClose, children }: DialogProps) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  // In the same stroke, so that the next key already finds the focus where it was.
  useLayoutEffect(() => {
    const dialog = box.current;
    const before = document.activeElement;
    dialog?.showModal();
    return () => {
      dialog?.close();
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={box}
      class="dialog"
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <div class="dialog-head">
        <h2 id={id}>{title}</h2>
        <button type="button" class="button button-quiet" onClick={onClose}>
          {t("parts.close")}
        </button>
      </div>
      <div class="dialog-body">{children}</div>
    </dialog>
  );
}
