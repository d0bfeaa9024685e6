// All mistakes in what was typed; each that stands at a field of the table leads there.
import { atItsField, type Mistake } from "../../api/client";
import { documentNamed } from "./bench";
import { useDesk } from "./desk_context";
import { sameKey } from "./hints";
import type { FiringDesk } from "./desk";
import { fieldId, fieldName, stepName } from "./program_table";
import { stepsOf } from "./steps";

/** The field of the table that a mistake stands at, by its id and by the name that people know it by. */
function fieldOf(desk: FiringDesk, mistake: Mistake): { id: string; name: string } | undefined {
  const of = documentNamed(desk.bench.value, mistake.of);
  if (!of.startsWith("program ")) return undefined;
  const found = stepsOf(desk.values(of)).flatMap((step) => step.fields.map((field) => ({ step, field }))).find(({ field }) => sameKey(mistake.key, field.key));
  return found && { id: fieldId(of, found.field.key), name: `${stepName(found.step)}, ${fieldName(found.field)}` };
}

/** "Heating, temperature: …" where the field is known, else as the server says it. */
export function mistakeWords(desk: FiringDesk, mistake: Mistake): string {
  const field = fieldOf(desk, mistake);
  return field ? `${field.name}: ${atItsField(mistake)}` : mistake.sentence;
}

export function LooseMistakes() {
  const desk = useDesk();
  const mistakes = desk.mistakes.value;
  if (mistakes.length === 0) return null;
  return (
      <ul class="loose-mistakes">
        {mistakes.map((mistake) => {
          const field = fieldOf(desk, mistake);
          return (
            <li key={`${mistake.of} ${mistake.key} ${mistake.sentence}`}>
              {field ? (
                <button type="button" class="link-key" onClick={() => desk.goTo(field.id)}>
                  {mistakeWords(desk, mistake)}
                </button>
              ) : (
                mistake.sentence
              )}
            </li>
          );
        })}
      </ul>
  );
}
