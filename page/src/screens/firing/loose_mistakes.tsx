// All mistakes in what was typed; each that stands at a field of the table leads there.
import { documentNamed } from "./bench";
import { useDesk } from "./desk_context";
import { sameKey } from "./hints";
import { fieldId } from "./program_table";
import { stepsOf } from "./steps";

export function LooseMistakes() {
  const desk = useDesk();
  const mistakes = desk.mistakes.value;
  if (mistakes.length === 0) return null;
  const bench = desk.bench.value;
  return (
      <ul class="loose-mistakes">
        {mistakes.map((mistake) => {
          const of = documentNamed(bench, mistake.of);
          const field = of.startsWith("program ") ? stepsOf(desk.values(of)).flatMap((step) => step.fields).find(({ key }) => sameKey(mistake.key, key)) : undefined;
          return (
            <li key={`${mistake.of} ${mistake.key} ${mistake.sentence}`}>
              {field ? (
                <button type="button" class="link-key" onClick={() => desk.goTo(fieldId(of, field.key))}>
                  {mistake.sentence}
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
