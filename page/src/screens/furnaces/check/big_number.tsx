import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import { describedBy, FieldNotes } from "../../../parts/field_notes";
import { parted, withUnit } from "./shown";

export interface BigNumberProps {
  /** What is to be typed; null where the question above says it. */
  label: string | null;
  /** With its unit: "2 min". */
  value: string;
  /** The first is the usual one; none: words. */
  units: readonly string[];
  unitsLabel: string;
  help?: string | undefined;
  mistake?: string | undefined;
  /** While what was typed is on its way: typing then would go into a question that is about to pass. */
  busy: boolean;
  /** It came up by a key that was just pressed: it gets the focus, and so into view. */
  comesUp?: boolean;
  onInput: (value: string) => void;
}

/** A number in big digits, typed on the device's own keys, its unit beside it; several units are chosen between. */
export function BigNumber({ label, value, units, unitsLabel, help, mistake, busy, comesUp = false, onInput }: BigNumberProps) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => {
    if (!comesUp) return;
    field.current?.focus();
    field.current?.scrollIntoView({ block: "center" });
  }, [comesUp]);
  const typed = parted(value);
  // A unit that is chosen before the number is typed waits for it.
  const [chosen, setChosen] = useState<string | null>(null);
  const unit = units.includes(typed.unit) ? typed.unit : chosen ?? units[0] ?? "";
  const choose = (next: string) => {
    setChosen(next);
    onInput(withUnit(typed.number, next));
  };
  const shown = units.includes(typed.unit) ? typed.number : value;
  return (
    <div class={`field big-number${mistake ? " field-wrong" : ""}`}>
      {label === null ? null : <label class="field-label" for={id}>{label}</label>}
      <div class="big-number-row">
        <input
          id={id}
          ref={field}
          class="field-input big-digits"
          type="text"
          inputMode={units.length > 0 ? "decimal" : "text"}
          autocomplete="off"
          value={shown}
          readOnly={busy}
          aria-labelledby={label === null ? "question" : undefined}
          aria-invalid={mistake ? true : undefined}
          aria-describedby={describedBy(id, { help, mistake })}
          onInput={(event) => onInput(withUnit(event.currentTarget.value, unit))}
        />
        {units.length === 1 ? <span class="big-unit">{unit}</span> : null}
        {units.length > 1 ? (
          <select class="field-input big-unit-choice" aria-label={unitsLabel} value={unit} disabled={busy} onChange={(event) => choose(event.currentTarget.value)}>
            {units.map((each) => (
              <option key={each} value={each}>{each}</option>
            ))}
          </select>
        ) : null}
      </div>
      <FieldNotes id={id} help={help} mistake={mistake} />
    </div>
  );
}
