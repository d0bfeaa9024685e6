import { useState } from "preact/hooks";
import { t } from "../words";
import { Button } from "./button";
import { Field } from "./field";
import { several } from "./form_values";

export interface ItemsFieldProps {
  id: string;
  label: string;
  help: string;
  /** With commas: "16, 17". */
  value: string;
  mistake: string | undefined;
  required: boolean;
  offers: readonly string[];
  onChange: (text: string) => void;
}

/** Several values, each taken out by its own key; a new one is added by Enter or the key beside the field. */
export function ItemsField({ id, label, help, value, mistake, required, offers, onChange }: ItemsFieldProps) {
  const [next, setNext] = useState("");
  const all = several(value);
  const add = () => {
    const more = several(next).filter((item) => !all.includes(item));
    if (more.length > 0) onChange([...all, ...more].join(", "));
    setNext("");
  };
  return (
    <div class="items">
      <div
        class="items-add"
        onKeyDown={(event) => {
          if (event.key !== "Enter" || next.trim() === "") return;
          event.preventDefault();
          add();
        }}
      >
        <Field id={id} label={label} help={help} value={next} mistake={mistake} required={required && all.length === 0} offers={offers.filter((name) => !all.includes(name))} onInput={setNext} onDone={add} />
        <Button onPress={add}>{t("parts.form.add_key")}</Button>
      </div>
      {all.length > 0 ? (
        <ul class="items-there">
          {all.map((item) => (
            <li key={item}>
              <span>{item}</span>
              <Button kind="quiet" label={`${t("parts.form.take_out")}: ${item}`} onPress={() => onChange(all.filter((each) => each !== item).join(", "))}>
                {t("parts.form.take_out")}
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}
