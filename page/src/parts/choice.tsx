import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { describedBy, FieldNotes } from "./field_notes";

export interface Option {
  value: string;
  label: string;
  help?: string;
}

export interface ChoiceProps {
  label: string;
  options: readonly Option[];
  value: string;
  onChoose: (value: string) => void;
  help?: string | undefined;
  mistake?: string | undefined;
  required?: boolean;
  /** An entry for "nothing chosen"; left out where something always is. */
  empty?: string | null;
  quiet?: boolean;
  id?: string;
}

/** One out of many: a list that opens. */
export function Choice({ label, options, value, onChoose, help, mistake, required = false, empty = t("parts.choose"), quiet = false, ...rest }: ChoiceProps) {
  const made = useId();
  const id = rest.id ?? made;
  return (
    <div class={`field${mistake ? " field-wrong" : ""}`}>
      {quiet ? null : (
        <label class="field-label" for={id}>
          {label}
        </label>
      )}
      <select
        id={id}
        class="field-input"
        value={value}
        aria-invalid={mistake ? true : undefined}
        aria-describedby={describedBy(id, { help, mistake })}
        aria-required={required || undefined}
        aria-label={quiet ? label : undefined}
        onChange={(event) => onChoose(event.currentTarget.value)}
      >
        {empty === null ? null : <option value="">{empty}</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
      <FieldNotes id={id} help={help} mistake={mistake} />
    </div>
  );
}

/** One out of few, all in sight as big keys; arrows move between them. */
export function BigChoice({ label, options, value, onChoose, mistake, hideLabel = false }: ChoiceProps & { hideLabel?: boolean }) {
  const name = useId();
  return (
    <fieldset class="big-choice" aria-describedby={describedBy(name, { mistake })}>
      <legend class={hideLabel ? "read-out" : "field-label"}>{label}</legend>
      <div class="big-choice-keys">
        {options.map((option) => (
          <label key={option.value} class="big-key">
            <input type="radio" name={name} value={option.value} checked={option.value === value} onChange={() => onChoose(option.value)} />
            <span class="big-key-face">
              <span>{option.label}</span>
              {option.help ? <small>{option.help}</small> : null}
            </span>
          </label>
        ))}
      </div>
      <FieldNotes id={name} mistake={mistake} />
    </fieldset>
  );
}

export function Tick({ label, checked, onChange, help }: { label: string; checked: boolean; onChange: (checked: boolean) => void; help?: string }) {
  const id = useId();
  return (
    <div class="tick">
      <label class="tick-label">
        <input type="checkbox" checked={checked} aria-describedby={help ? id : undefined} onChange={(event) => onChange(event.currentTarget.checked)} />
        <span>{label}</span>
      </label>
      {help ? (
        <p class="field-help" id={id}>
          {help}
        </p>
      ) : null}
    </div>
  );
}
