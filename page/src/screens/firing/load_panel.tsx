// What goes into the furnace, and in what state it stands: stage of work, pieces and their places, tray, furnace, sheet, program.
import { atItsField } from "../../api/client";
import { Choice, type Option } from "../../parts";
import { pathOf } from "../../shell/routes";
import { t } from "../../words";
import { FIRING, namesOf } from "./bench";
import { useDesk } from "./desk_context";
import { formField } from "../../kept/form_field";
import { sameKey } from "./hints";
import { INSTRUCTION } from "./missing";
import { ChamberFields } from "./chamber_fields";
import { FurnaceFacts } from "./furnace_facts";
import { PieceRows } from "./piece_rows";
import { TrayMass } from "./tray_mass";
import { fittingFirst, onlySheet, options, useShelf } from "./shelves";
import type { Values } from "./values";

export function useMistakeOf(of: string): (key: string) => string | undefined {
  const mistakes = useDesk().mistakes.value;
  return (key) => {
    const found = mistakes.find((one) => (one.of === of || one.of.startsWith(`${of} `)) && sameKey(one.key, key));
    return found && atItsField(found);
  };
}

export function LoadPanel() {
  const desk = useDesk();
  const firing = desk.values(FIRING);
  const names = namesOf(desk.bench.value);
  const mistake = useMistakeOf(FIRING);
  const set = (key: string, value: string) => {
    const { [key]: _before, ...others } = desk.values(FIRING);
    const next = value === "" ? others : { ...others, [key]: value };
    desk.type(FIRING, { ...next, ...withIt(key, value, next) });
  };
  /** What a choice brings along while nothing else was chosen: the stage its only sheet, the sheet its program. All of it is in sight. */
  const withIt = (key: string, value: string, next: Values): Values => {
    if (next["program"]) return {};
    const sheet = key === "stage" && !next["instruction"] ? onlySheet(sheets, value, materials) : key === "instruction" ? sheets.find((row) => row.name === value) : null;
    return sheet ? { instruction: sheet.name, ...(sheet.program ? { program: sheet.program } : {}) } : {};
  };
  const materials = names.pieces.flatMap((piece) => Object.entries(desk.values(`piece ${piece}`)).flatMap(([key, value]) => (key.endsWith(".material") ? [value] : [])));
  const stages = formField(desk.forms.value.firing?.fields ?? [], "stage")?.choices ?? [];
  const stage = firing["stage"] ?? "";
  const trays = useShelf("tray");
  const furnaces = useShelf("furnace");
  const programs = fittingFirst(useShelf("program"), (row) => row.stages?.includes(stage) ?? false);
  const sheets = fittingFirst(useShelf("instruction"), (row) => row.stage === stage);
  const choice = (key: string, label: string, all: Option[], extra: { id?: string; empty?: string } = {}) => (
    <Choice label={label} options={all} value={firing[key] ?? ""} onChoose={(value) => set(key, value)} mistake={mistake(key)} {...extra} />
  );
  const stageOptions: Option[] = stages.map(({ value, label }) => ({ value, label }));
  if (stage && !stageOptions.some(({ value }) => value === stage)) stageOptions.unshift({ value: stage, label: stage });
  return (
    <section class="load" aria-label={t("firing.load.title")}>
      <PieceRows />
      <div class="load-choices">
        {choice("stage", t("firing.load.stage"), stageOptions)}
        {choice("program", t("firing.load.program"), options(programs, names.program))}
        {choice("instruction", t("firing.load.instruction"), options(sheets, names.instruction), { id: INSTRUCTION, empty: t("firing.load.no_instruction") })}
        {choice("furnace", t("firing.load.furnace"), options(furnaces, names.furnace))}
        <FurnaceFacts />
        {choice("tray", t("firing.load.tray"), options(trays, names.tray))}
        <TrayMass />
      </div>
      <ChamberFields />
      {names.program ? (
        <p class="load-links">
          <a href={pathOf("program", names.program)}>{t("firing.load.to_program")}</a>
          {names.furnace ? <a href={pathOf("furnace", names.furnace)}>{t("firing.load.to_furnace")}</a> : null}
        </p>
      ) : null}
    </section>
  );
}
