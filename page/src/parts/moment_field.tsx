import { t } from "../words";
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
  const described = [`${id}-help`, mistake ? `${id}-mistake` : ""].filter(Boolean).join(" ");
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
        aria-describedby={described}
        onInput={(event) => onChange(fromLocal(event.currentTarget.value))}
      />
      <p class="field-help" id={`${id}-help`}>{help} · {t("parts.form.device_time")}</p>
      {mistake ? (
        <p class="field-mistake" id={`${id}-mistake`}>
          <strong>{t("parts.mistake")}</strong> {mistake}
        </p>
      ) : null}
    </div>
  );
}
