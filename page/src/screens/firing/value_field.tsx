// One value of the table: a text with its unit, as typed; beside it what the maker's sheet has and what is allowed. What is wrong stands
// under its row, which has the room for a sentence, and is read out with the value.
import { Component } from "preact";
import { t } from "../../words";
import { keyWentDown } from "./measure";

export interface ValueFieldProps {
  id: string;
  /** Read out and, on a small screen, shown: "Heating 1, rate". */
  label: string;
  /** Shown over the field where there are no column heads. */
  short: string;
  value: string;
  required: boolean;
  /** What holds where nothing is typed. */
  otherwise: string;
  /** As kept, where that is another value. */
  kept: string | null;
  /** What the maker's program has, where that is another value. */
  maker: string | null;
  /** What may be typed, shown while the field is in use. */
  hint: string;
  mistake: string | null;
  onInput: (value: string) => void;
  onLeave: (value: string) => void;
}

export function ValueField(props: ValueFieldProps) {
  const { id, label, short, value, kept, maker, hint, mistake } = props;
  const described = [mistake ? `${id}-mistake` : "", maker !== null ? `${id}-maker` : "", `${id}-hint`].filter(Boolean).join(" ");
  return (
    <div class={`value${kept !== null ? " value-changed" : ""}${mistake ? " value-wrong" : ""}`}>
      <label class="value-label" for={id}>
        <span aria-hidden="true">{short}</span>
        <span class="read-out">{label}</span>
      </label>
      <input
        id={id}
        class="value-input"
        value={value}
        placeholder={props.otherwise}
        autocomplete="off"
        autocapitalize="none"
        spellcheck={false}
        aria-invalid={mistake ? true : undefined}
        aria-required={props.required || undefined}
        aria-describedby={described}
        onKeyDown={keyWentDown}
        onInput={(event) => props.onInput(event.currentTarget.value)}
        onChange={(event) => props.onLeave(event.currentTarget.value)}
      />
      {maker !== null ? (
        <span class="value-maker" id={`${id}-maker`}>
          {maker === "" ? t("firing.table.maker_none") : t("firing.table.maker_has", { value: maker })}
        </span>
      ) : null}
      <p class="value-hint" id={`${id}-hint`}>
        {[kept !== null ? (kept === "" ? t("firing.table.kept_none") : t("firing.table.kept_was", { value: kept })) : "", hint].filter(Boolean).join(" · ")}
      </p>
    </div>
  );
}

const SHOWN = ["id", "value", "kept", "maker", "hint", "otherwise", "mistake", "label"] as const;

/** The same, drawn anew only where what it shows is another: a table has many and each letter typed asks all of them. */
export class MemoValueField extends Component<ValueFieldProps> {
  override shouldComponentUpdate(next: ValueFieldProps) {
    return SHOWN.some((key) => next[key] !== this.props[key]);
  }
  override render() {
    return <ValueField {...this.props} />;
  }
}
