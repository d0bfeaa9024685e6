import type { ComponentChildren } from "preact";

export interface ButtonProps {
  children: ComponentChildren;
  /** At most one primary action a screen. */
  kind?: "primary" | "plain" | "quiet";
  onPress?: () => void;
  submit?: boolean;
  /** Work is under way: pressing again does nothing, and a screen reader hears it. */
  busy?: boolean;
  disabled?: boolean;
  label?: string;
  id?: string;
  form?: string;
  pressed?: boolean;
  expanded?: boolean;
}

export function Button({ children, kind = "plain", onPress, submit = false, busy = false, disabled = false, label, id, form, pressed, expanded }: ButtonProps) {
  return (
    <button
      type={submit ? "submit" : "button"}
      class={`button button-${kind}`}
      onClick={() => !busy && onPress?.()}
      disabled={disabled}
      aria-busy={busy}
      aria-disabled={busy}
      aria-label={label}
      aria-pressed={pressed}
      aria-expanded={expanded}
      id={id}
      form={form}
    >
      {children}
    </button>
  );
}

export function ButtonLink({ to, children, kind = "plain" }: { to: string; children: ComponentChildren; kind?: ButtonProps["kind"] }) {
  return (
    <a class={`button button-${kind}`} href={to}>
      {children}
    </a>
  );
}
