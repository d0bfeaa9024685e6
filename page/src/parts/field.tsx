import { useId } from "preact/hooks";
import { DayField } from "./day_field";
import { describedBy, FieldNotes } from "./field_notes";

export interface FieldProps {
  label: string;
  value: string;
  onInput: (value: string) => void;
  /** Called with Enter, or when the field is left. */
  onDone?: (value: string) => void;
  /** What may be typed, "55 K/min" for instance; stands under the field, never inside it alone. */
  help?: string;
  /** What is wrong with the value, in the server's words. */
  mistake?: string | undefined;
  /** Unit that a bare number would lack: shown after the label. */
  unit?: string | null | undefined;
  kind?: "text" | "password" | "pin" | "date" | "search";
  required?: boolean;
  /** Words to choose from while typing. */
  offers?: readonly string[];
  lines?: number;
  autocomplete?: string;
  disabled?: boolean;
  id?: string;
  /** A table has the label in its heading: then it is read out only. */
  quiet?: boolean;
}

/** One typed value: a quantity with its unit as text, a name, a day, a password. The mistake stands at the value and is read out with it. */
export function Field(props: FieldProps) {
  const made = useId();
  const id = props.id ?? made;
  if (props.kind === "date") {
    const { label, value, help, mistake, required = false, disabled = false, onInput, onDone } = props;
    return <DayField {...{ id, label, value, help, mistake, required, disabled, onInput, onDone }} />;
  }
  return <TypedField {...props} id={id} />;
}

function TypedField(props: FieldProps & { id: string }) {
  const { id } = props;
  const { label, value, help, mistake, unit, kind = "text", required = false, offers, lines, quiet = false } = props;
  const notes = { help: quiet ? undefined : help, mistake };
  const shared = {
    id,
    value,
    class: "field-input",
    disabled: props.disabled ?? false,
    "aria-invalid": mistake ? true : undefined,
    "aria-describedby": describedBy(id, notes),
    "aria-required": required || undefined,
    "aria-label": quiet ? label : undefined,
    onInput: (event: { currentTarget: HTMLInputElement | HTMLTextAreaElement }) => props.onInput(event.currentTarget.value),
    onChange: (event: { currentTarget: HTMLInputElement | HTMLTextAreaElement }) => props.onDone?.(event.currentTarget.value),
  };
  return (
    <div class={`field${mistake ? " field-wrong" : ""}`}>
      {!quiet && (
        <label class="field-label" for={id}>
          {label}
          {unit ? <span class="field-unit"> {unit}</span> : null}
        </label>
      )}
      {lines === undefined ? (
        <input
          {...shared}
          type={(kind === "pin" ? "password" : kind) as "text"}
          inputMode={kind === "pin" ? "numeric" : undefined}
          autocomplete={props.autocomplete ?? "off"}
          autocapitalize="none"
          spellcheck={false}
          list={offers ? `${id}-offers` : undefined}
        />
      ) : (
        <textarea {...shared} rows={lines} />
      )}
      {offers ? (
        <datalist id={`${id}-offers`}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      ) : null}
      <FieldNotes id={id} {...notes} />
    </div>
  );
}
