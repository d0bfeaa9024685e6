import { t } from "../words";
import { describedBy, FieldNotes } from "./field_notes";
import { fromLocal, toLocal } from "./moments";

export interface MomentFieldProps {
  id: string;
  label: string;
  help: string;
  /** UTC, "2026-11-25T17:11:04Z". */
  value: string;
  mistake: string | undefined;
  required: boolean;
  onChange: (text: string) => void;
}

/** A moment, typed in the time of this device and kept in UTC. */
export function MomentField({ id, label, help, value, mistake, required, onChange }: MomentFieldProps) {
  const notes = { help: `${help} · ${t("parts.form.device_time")}`, mistake };
  return (
    <div class={`field${mistake ? " field-wrong" : ""}`}>
      <label class="field-label" for={id}>{label}</label>
      <input
        id={id}
        class="field-input"
        type="datetime-local"
        value={toLocal(value)}
        aria-required={required || undefined}
        aria-invalid={mistake ? true : undefined}
        aria-describedby={describedBy(id, notes)}
        onInput={(event) => onChange(fromLocal(event.currentTarget.value))}
      />
      <FieldNotes id={id} {...notes} />
    </div>
  );
}
