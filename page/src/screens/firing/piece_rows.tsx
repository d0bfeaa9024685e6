// The pieces of a firing: where each stands on the tray, and the thickness of the layers that are fired, where that decides.
import { Button, Choice, Field } from "../../parts";
import { pathOf } from "../../shell/routes";
import { t } from "../../words";
import { FIRING, namesOf } from "./bench";
import { useDesk } from "./desk_context";
import { formField } from "../../kept/form_field";
import { useMistakeOf } from "./load_panel";
import { options, useShelf } from "./shelves";
import { countOf, entryKey, withEntry, withoutEntry, type Values } from "./values";

export function PieceRows() {
  const desk = useDesk();
  const firing = desk.values(FIRING);
  const names = namesOf(desk.bench.value);
  const mistake = useMistakeOf(FIRING);
  const shelf = useShelf("piece");
  const free = shelf.filter((row) => !names.pieces.includes(row.name));
  const add = (name: string) => name && desk.type(FIRING, withEntry(desk.values(FIRING), "piece", names.pieces.length, { piece: name, place: "middle" }));
  return (
    <div class="pieces">
      <h2>{t("firing.load.pieces")}</h2>
      {names.pieces.map((piece, index) => (
        <PieceRow key={piece} piece={piece} index={index} firing={firing} only={names.pieces.length === 1} mistake={mistake(`${entryKey("piece", index)}.place`) ?? mistake(`${entryKey("piece", index)}.piece`)} />
      ))}
      <Choice label={t("firing.load.add_piece")} options={options(free, "")} value="" onChoose={add} mistake={mistake("piece")} empty={t("firing.load.choose_piece")} />
    </div>
  );
}

interface PieceRowProps {
  piece: string;
  index: number;
  firing: Values;
  only: boolean;
  mistake: string | undefined;
}

function PieceRow({ piece, index, firing, only, mistake }: PieceRowProps) {
  const desk = useDesk();
  const values = desk.values(`piece ${piece}`);
  const key = `${entryKey("piece", index)}.place`;
  const places = formField(desk.forms.value.firing?.fields ?? [], "piece.place")?.choices ?? [];
  const place = firing[key] ?? "middle";
  const all = places.length ? places : [{ value: place, label: place }];
  return (
    <div class="piece" role="group" aria-label={piece}>
      <div class="piece-head">
        <a class="piece-name" href={pathOf("piece", piece)}>
          {values["label"] || piece}
        </a>
        {values["label"] ? <span class="piece-code">{piece}</span> : null}
        {only ? null : (
          <Button kind="quiet" label={t("firing.load.take_piece_out", { piece })} onPress={() => desk.type(FIRING, withoutEntry(desk.values(FIRING), "piece", index))}>
            {t("firing.load.take_out")}
          </Button>
        )}
      </div>
      <div class="load-choices">
        <Choice label={t("firing.load.place")} options={all} value={place} empty={null} mistake={mistake} onChoose={(value) => desk.type(FIRING, { ...desk.values(FIRING), [key]: value })} />
        <BuiltUpLayers piece={piece} values={values} />
      </div>
    </div>
  );
}

/** Layers that go in unfired: their thickness decides drying and heat. */
function BuiltUpLayers({ piece, values }: { piece: string; values: Values }) {
  const desk = useDesk();
  const of = `piece ${piece}`;
  const mistake = useMistakeOf(of);
  const layers = Array.from({ length: countOf(values, "section") }, (_, section) =>
    Array.from({ length: countOf(values, `${entryKey("section", section)}.layer`) }, (_each, layer) => ({ section, key: entryKey(`${entryKey("section", section)}.layer`, layer) })),
  )
    .flat()
    .filter(({ key }) => values[`${key}.green`] === "true");
  return (
    <>
      {layers.map(({ section, key }) => (
        <Field
          key={key}
          label={t("firing.load.layer", { section: values[`${entryKey("section", section)}.name`] ?? String(section + 1) })}
          value={values[`${key}.thickness`] ?? ""}
          mistake={mistake(`${key}.thickness`)}
          onInput={(text) => desk.type(of, { ...desk.values(of), [`${key}.thickness`]: text }, `${of} ${key}`)}
        />
      ))}
    </>
  );
}
