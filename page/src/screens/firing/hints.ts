// What stands beside a value: the maker's value, what is allowed by the form and the sheet, and what is wrong with what was typed.
import { formField } from "../../kept/form_field";
import { atItsField } from "../../api/client";
import { t } from "../../words";
import { documentNamed, namesOf } from "./bench";
import { useDesk } from "./desk_context";
import { limitsOf, makersKey } from "./steps";
import type { Values } from "./values";

export interface Hints {
  /** The maker's value where it is another one: "" where the maker's program has none, null where nothing is to be said. */
  maker(key: string, values: Values): string | null;
  /** What holds where nothing is typed: "100 %". */
  otherwise(key: string): string;
  hint(key: string, values: Values): string;
  mistake(of: string, key: string): string | null;
}

function plain(text: string): string {
  return text.replace(/\s+/g, "").replace(/,/g, ".");
}

export function useHints(): Hints {
  const desk = useDesk();
  const bench = desk.bench.value;
  const base = desk.base.value;
  const mistakes = desk.mistakes.value;
  const names = namesOf(bench);
  const instruction = base[`instruction ${names.instruction}`] ?? null;
  const makerName = instruction?.["program"] ?? "";
  const maker = base[`program ${makerName}`] ?? null;
  const form = desk.forms.value.program;
  return {
    maker(key, values) {
      const theirs = maker ? makersKey(key, values, maker) : null;
      if (!maker || theirs === null) return null;
      const value = maker[theirs] ?? "";
      return plain(value) === plain(values[key] ?? "") ? null : value;
    },
    otherwise(key) {
      return (form ? formField(form.fields, key)?.default : null) ?? "";
    },
    hint(key, values) {
      const range = form ? (formField(form.fields, key)?.range ?? "") : "";
      const sheet = limitsOf(key, values).flatMap((limit) => {
        const value = instruction?.[`limits.${limit}`];
        return value ? [t(limit.endsWith("at_most") ? "firing.table.sheet_at_most" : "firing.table.sheet_at_least", { value })] : [];
      });
      return [...sheet, range].filter(Boolean).join(" · ");
    },
    mistake(of, key) {
      const found = mistakes.find((one) => documentNamed(bench, one.of) === of && sameKey(one.key, key));
      return found ? atItsField(found) : null;
    },
  };
}

/** "heating[1].to" is told as "heating[1].to" or "program.heating[1].to". */
export function sameKey(told: string, key: string): boolean {
  return told === key || told.endsWith(`.${key}`);
}

