// The numbers of the picture as tables: the moments that decide, and what each piece reaches. For screen readers, small screens and paper.
import { Table, type Column } from "../../parts";
import { asTold, number, t, units } from "../../words";
import type { CheckSaid, Moment, PieceReadings, Rehearsal } from "./answers";
import { useDesk } from "./desk_context";
import { band, difference, duration, rounded, temperature, withItsUnit } from "./quantities";
import { useIsOfOtherValues } from "./standing_line";
import { strongestPull, whyNoStress, worstStress, type WorstStress } from "./stress";

export function NumbersPane() {
  const rehearsal = useDesk().shown.value?.answer.rehearsal;
  const other = useIsOfOtherValues();
  return rehearsal ? (
    <div class={`numbers${other ? " of-other-values" : ""}`}>
      <NumbersTables rehearsal={rehearsal} />
    </div>
  ) : null;
}

function FromChecks({ checks }: { checks: readonly CheckSaid[] }) {
  return (
    <section>
      <h2>{t("firing.numbers.from_checks")}</h2>
      <ul class="numbers-assumptions">
        {checks.map((said) => (
          <li key={said.sentence}>{asTold(said.sentence)}</li>
        ))}
      </ul>
    </section>
  );
}

export function NumbersTables({ rehearsal }: { rehearsal: Rehearsal }) {
  return (
    <>
      <Moments moments={rehearsal.moments} />
      <Readings pieces={rehearsal.pieces} />
      {rehearsal.checks.length > 0 ? <FromChecks checks={rehearsal.checks} /> : null}
      {rehearsal.reference ? (
        <section>
          <h2>{t("firing.numbers.compared_with")}</h2>
          <ul class="numbers-assumptions">
            {rehearsal.reference.assumptions.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      ) : null}
    </>
  );
}

const MOMENTS = ["dry", "closed", "vacuum started", "vacuum reached", "pores half sealed", "pores sealed", "released", "top", "hold ends", "open"] as const;
type KnownMoment = (typeof MOMENTS)[number];

function isKnown(what: string): what is KnownMoment {
  return (MOMENTS as readonly string[]).includes(what);
}

function momentWords(moment: Moment): string {
  if (moment.words) return moment.words;
  return isKnown(moment.what) ? t(`firing.moment.${moment.what.replaceAll(" ", "_") as MomentKey}`) : moment.what;
}

type MomentKey = "dry" | "closed" | "vacuum_started" | "vacuum_reached" | "pores_half_sealed" | "pores_sealed" | "released" | "top" | "hold_ends" | "open";

function Moments({ moments }: { moments: readonly Moment[] }) {
  const columns: Column<Moment>[] = [
    { key: "what", head: t("firing.numbers.moment"), cell: (row) => momentWords(row) + (row.piece ? `, ${row.piece}` : ""), names: true },
    { key: "at", head: t("firing.numbers.after"), cell: (row) => duration(row.at_s), number: true },
    { key: "display", head: t("firing.numbers.display"), cell: (row) => temperature(row.display_C, units.value), number: true },
  ];
  return <Table caption={t("firing.numbers.moments")} columns={columns} rows={moments} keyOf={(row) => `${row.what} ${row.piece ?? ""}`} />;
}

interface Line {
  key: string;
  head: string;
  cell: (piece: PieceReadings) => string | null;
}

function lines(): Line[] {
  const given = (value: number | null | undefined, write: (value: number) => string) => (value === null || value === undefined ? null : write(value));
  return [
    { key: "display", head: t("firing.numbers.peak_display"), cell: ({ peak_C }) => temperature(peak_C.display, units.value) },
    { key: "chamber", head: t("firing.numbers.peak_chamber"), cell: ({ peak_C }) => temperature(peak_C.chamber, units.value) },
    { key: "surface", head: t("firing.numbers.peak_surface"), cell: ({ peak_C }) => temperature(peak_C.surface, units.value) },
    { key: "core", head: t("firing.numbers.peak_core"), cell: ({ peak_C }) => temperature(peak_C.core, units.value) },
    { key: "shift", head: t("firing.numbers.like_kelvin"), cell: ({ compared }) => given(compared?.shift_K, (value) => difference(value, units.value)) },
    { key: "hold", head: t("firing.numbers.like_hold"), cell: ({ compared }) => given(compared?.hold_s, duration) },
    { key: "water", head: t("firing.numbers.water_left"), cell: ({ end }) => given(end.water_left_g, (value) => `${number(value, 3)} g`) },
    { key: "porosity", head: t("firing.numbers.porosity"), cell: ({ end }) => given(end.porosity_percent, (value) => withItsUnit(value, "%")) },
    { key: "rounding", head: t("firing.numbers.rounding"), cell: ({ end }) => given(end.rounding_um, (value) => withItsUnit(value, "µm")) },
    { key: "crystallised", head: t("firing.numbers.crystallised"), cell: ({ end }) => given(end.crystallised_fraction, (value) => `${rounded(value * 100)} %`) },
    { key: "crystal", head: t("firing.numbers.crystal"), cell: ({ end }) => given(end.crystal_um, (value) => withItsUnit(value, "µm")) },
    { key: "density", head: t("firing.numbers.density"), cell: ({ end }) => given(end.relative_density, (value) => `${rounded(value * 100)} %`) },
    { key: "grain", head: t("firing.numbers.grain"), cell: ({ end }) => given(end.grain_um, (value) => withItsUnit(value, "µm")) },
    { key: "frame sag", head: t("firing.numbers.frame_sag"), cell: ({ end }) => given(end.frame_sag_most_um, (value) => withItsUnit(value, "µm")) },
    ...stressLines(),
  ];
}

function tension(value: number, low: number | null, high: number | null): string {
  const told = withItsUnit(value, "MPa");
  return low === null || high === null ? told : `${told} (${band(low, high, "MPa")})`;
}

/** The form of a section in words; one that has none goes by its own name. */
function formWords(form: string): string {
  return form === "sphere" || form === "cylinder" || form === "plate-flat" || form === "plate-free" ? t(`firing.form.${form.replace("-", "_") as FormKey}`) : form;
}

type FormKey = "sphere" | "cylinder" | "plate_flat" | "plate_free";

function stressLines(): Line[] {
  const by = (speaks: typeof worstStress) => (write: (told: WorstStress) => string) => (piece: PieceReadings) => {
    const told = speaks(piece.end.stress);
    return told ? write(told) : null;
  };
  const of = by(worstStress);
  const pull = by(strongestPull);
  return [
    { key: "way", head: t("firing.numbers.tension_on_the_way"), cell: of(({ glass }) => tension(glass.transient_highest_MPa, glass.transient_low_MPa, glass.transient_high_MPa)) },
    { key: "stays", head: t("firing.numbers.tension_that_stays"), cell: of(({ glass }) => tension(glass.highest_hoop_MPa, glass.low_MPa, glass.high_MPa)) },
    { key: "across", head: t("firing.numbers.tension_between_layers"), cell: pull(({ glass }) => tension(glass.radial_at_inner_MPa, glass.radial_low_MPa, glass.radial_high_MPa)) },
    { key: "of", head: t("firing.numbers.stress_of"), cell: of(({ section, form }) => `${section}, ${formWords(form)}`) },
    { key: "why", head: t("firing.numbers.no_stress"), cell: ({ end }) => whyNoStress(end.stress) },
  ];
}

function Readings({ pieces }: { pieces: readonly PieceReadings[] }) {
  const rows = lines().filter((line) => pieces.some((piece) => line.cell(piece) !== null));
  const columns: Column<Line>[] = [
    { key: "what", head: t("firing.numbers.reading"), cell: (row) => row.head, names: true },
    ...pieces.map((piece) => ({ key: piece.piece, head: piece.piece, cell: (row: Line) => row.cell(piece) ?? t("parts.none"), number: true })),
  ];
  return <Table caption={t("firing.numbers.pieces")} columns={columns} rows={rows} keyOf={(row) => row.key} />;
}
