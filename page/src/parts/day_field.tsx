import { useRef, useState } from "preact/hooks";
import { language, t } from "../words";
import { dayInWords, isDay, isMoment, momentInWords, readDay, readMoment, typedDay, typedMoment } from "../words/days";
import { describedBy, FieldNotes } from "./field_notes";

export interface DayFieldProps {
  id: string;
  label: string;
  /** "2026-11-29", with a clock time "2026-11-29T14:30"; or what was typed and is neither. */
  value: string;
  onInput: (value: string) => void;
  onDone?: ((value: string) => void) | undefined;
  help?: string | undefined;
  mistake?: string | undefined;
  required?: boolean;
  disabled?: boolean;
  withTime?: boolean;
}

const OF_DAY = { read: readDay, is: isDay, shown: typedDay, inWords: dayInWords };
const OF_MOMENT = { read: readMoment, is: isMoment, shown: typedMoment, inWords: momentInWords };

/** How a day is written here. The year goes on, so that an example never looks like a value. */
function example(withTime: boolean): string {
  const iso = `${new Date().getFullYear() + 1}-02-28`;
  const shown = withTime ? typedMoment(`${iso}T14:30`) : typedDay(iso);
  return t(withTime ? "parts.day.no_moment" : "parts.day.no_day", { example: shown, iso: withTime ? `${iso} 14:30` : iso });
}

/**
 * A day, and with it a clock time where asked: typed as one writes it in either language, or chosen from the calendar of the device. The field
 * of the browser would show it in the browser's language; here it stands in the lab's, with the weekday and the month in words below.
 */
export function DayField({ id, label, value, onInput, onDone, help, mistake, required = false, disabled = false, withTime = false }: DayFieldProps) {
  const kind = withTime ? OF_MOMENT : OF_DAY;
  const [typed, setTyped] = useState<string | null>(null);
  const taken = (text: string) => kind.read(text) ?? text.trim();
  // What came from elsewhere since, a draft or the calendar, goes before what was typed.
  const typing = typed !== null && taken(typed) === value;
  const wrong = !typing && value !== "" && !kind.is(value) ? example(withTime) : mistake;
  const notes = { said: kind.inWords(value), help, mistake: wrong };
  return (
    <div class={`field${wrong ? " field-wrong" : ""}`}>
      <label class="field-label" id={`${id}-label`} for={id}>{label}</label>
      <div class="day-row">
        <input
          id={id}
          class="field-input"
          type="text"
          lang={language()}
          autocomplete="off"
          spellcheck={false}
          disabled={disabled}
          value={typing ? typed : kind.shown(value)}
          aria-required={required || undefined}
          aria-invalid={wrong ? true : undefined}
          aria-describedby={describedBy(id, notes)}
          onInput={({ currentTarget }) => {
            setTyped(currentTarget.value);
            onInput(taken(currentTarget.value));
          }}
          onChange={({ currentTarget }) => {
            setTyped(null);
            onDone?.(taken(currentTarget.value));
          }}
          onBlur={() => setTyped(null)}
        />
        <Calendar of={`${id}-label`} value={kind.is(value) ? value : ""} withTime={withTime} disabled={disabled} onChoose={(chosen) => {
          setTyped(null);
          onInput(chosen);
          onDone?.(chosen);
        }} />
      </div>
      <FieldNotes id={id} {...notes} />
    </div>
  );
}

/** The calendar of the device behind a key: its field itself is never seen. */
function Calendar({ of, value, withTime, disabled, onChoose }: { of: string; value: string; withTime: boolean; disabled: boolean; onChoose: (value: string) => void }) {
  const field = useRef<HTMLInputElement>(null);
  if (typeof HTMLInputElement === "undefined" || !("showPicker" in HTMLInputElement.prototype)) return null;
  const open = () => {
    try {
      field.current?.showPicker();
    } catch {
      // A device that lets no calendar be opened: the day is typed.
    }
  };
  return (
    <span class="day-calendar">
      <button type="button" class="button button-plain" aria-label={t("parts.day.calendar")} aria-describedby={of} disabled={disabled} onClick={open}>
        <svg class="day-mark" viewBox="0 0 20 20" aria-hidden="true">
          <path d="M3 5h14v12H3zM3 9h14M7 3v4M13 3v4" />
        </svg>
      </button>
      <input ref={field} class="day-picker" type={withTime ? "datetime-local" : "date"} tabIndex={-1} aria-hidden="true" value={value} onChange={({ currentTarget }) => onChoose(currentTarget.value.slice(0, withTime ? 16 : 10))} />
    </span>
  );
}
