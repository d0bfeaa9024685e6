// The two panes of a chart on the page: errors with their ranges above, the sums below; one time axis, nearer by dragging.
import uPlot from "uplot";
import { number } from "../../../words";
import { locale } from "../../../words/numbers";
import type { ChartAnswer } from "./answer";
import { dataOf, type ChartData } from "./chart_data";
import { lookOf, Pen, type Look } from "./chart_pen";

const ERRORS = 290, SUMS = 170, LEFT = 64, RIGHT = 46, DENSE = 300;

export interface Range {
  min: number;
  max: number;
}

export interface Plots {
  /** Shows a stretch of the days; null: all. */
  show(range: Range | null): void;
  /** What is in sight; null: all. */
  range(): Range | null;
  /** Puts the cursor on a check. */
  point(place: number): void;
  end(): void;
}

export interface PlotWords {
  errors: string;
  sums: string;
  /** The cursor stands at a check, or at none. */
  onPoint: (place: number | null) => void;
  onRange: (range: Range | null) => void;
}

interface Pane {
  title: string;
  tall: number;
  low: number;
  high: number;
  column: readonly number[];
  draw: (pen: Pen) => void;
}

const DAY_S = 86_400;
/** How a mark of the time axis is written, from so many seconds apart on. */
const MARKS: readonly [apart: number, options: Intl.DateTimeFormatOptions][] = [
  [360 * DAY_S, { year: "numeric" }],
  [27 * DAY_S, { month: "short", year: "numeric" }],
  [DAY_S, { day: "numeric", month: "short" }],
  [0, { day: "numeric", month: "short", hour: "numeric", minute: "2-digit" }],
];

/** Days, months or years as the reader writes them. */
function dayLabels(_: uPlot, marks: number[], __: number, ___: number, apart: number): string[] {
  const options = MARKS.find(([least]) => apart >= least)?.[1] ?? {};
  const write = new Intl.DateTimeFormat(locale(), options);
  return marks.map((at) => write.format(new Date(1000 * at)));
}

function drawErrors(pen: Pen, data: ChartData, chart: ChartAnswer, look: Look): void {
  const [from, to] = pen.inSight();
  for (const limit of [data.limit, -data.limit]) pen.level(limit, { colour: look.strong, wide: 1.5, dashes: [7, 6] });
  pen.level(0, { colour: look.strong, wide: 1 });
  drawRestarts(pen, data, look, true);
  const dense = to - from > DENSE;
  drawRanges(pen, data, look, [from, to], dense);
  if (data.ahead) {
    const { from: day, error, to: until, then } = data.ahead;
    pen.stroke({ colour: look.ink, wide: 2, dashes: [9, 6] }, (context) => {
      context.moveTo(pen.x(day), pen.y(error));
      context.lineTo(pen.x(until), pen.y(then));
    });
  }
  if (!dense) pen.through(data.at, data.trend, data.runs, { colour: look.soft, wide: 1.5 });
  drawMarks(pen, data, chart, look, [from, to], dense);
  // Among so many marks the trend stands out by an edge of its own.
  if (dense) for (const [colour, wide] of [[look.sheet, 5], [look.ink, 2]] as const) pen.through(data.at, data.trend, data.runs, { colour, wide });
}

/** A line a check; where they stand closer than one can tell, the reach of all that stand in a column of the screen, pale. */
function drawRanges(pen: Pen, data: ChartData, look: Look, [from, to]: [number, number], dense: boolean): void {
  const low = (place: number) => pen.y((data.error[place] ?? 0) - (data.unsure[place] ?? 0));
  const high = (place: number) => pen.y((data.error[place] ?? 0) + (data.unsure[place] ?? 0));
  pen.stroke(dense ? { colour: look.strong, wide: 1, alpha: 0.45 } : { colour: look.ink, wide: 2 }, (context) => {
    let column = NaN, bottom = 0, top = 0;
    const end = () => {
      if (Number.isNaN(column)) return;
      context.moveTo(column, bottom);
      context.lineTo(column, top);
    };
    for (let place = from; place < to; place += 1) {
      const x = dense ? Math.round(pen.x(data.at[place] ?? 0)) : pen.x(data.at[place] ?? 0);
      const same = dense && x === column;
      if (!same) end();
      bottom = same ? Math.max(bottom, low(place)) : low(place);
      top = same ? Math.min(top, high(place)) : high(place);
      column = x;
    }
    end();
  });
}

/** A disc an error, a square where the sums alarm, a ring where a check was set aside: told apart by shape; where they are many, points. */
function drawMarks(pen: Pen, data: ChartData, chart: ChartAnswer, look: Look, [from, to]: [number, number], dense: boolean): void {
  pen.within((context, scale) => {
    const size = (dense ? 1 : 5) * scale;
    context.fillStyle = look.ink;
    context.beginPath();
    for (let place = from; place < to; place += 1) {
      const check = chart.checks[place], x = pen.x(data.at[place] ?? 0), y = pen.y(data.error[place] ?? 0);
      if (check?.set_aside) continue;
      if (dense || check?.sum_beyond) context.rect(x - 1.2 * size, y - 1.2 * size, 2.4 * size, 2.4 * size);
      else {
        context.moveTo(x + size, y);
        context.arc(x, y, size, 0, 2 * Math.PI);
      }
    }
    context.fill();
    context.fillStyle = look.sheet;
    context.strokeStyle = look.ink;
    context.lineWidth = 2 * scale;
    for (let place = from; place < to; place += 1) {
      if (!chart.checks[place]?.set_aside) continue;
      context.beginPath();
      context.arc(pen.x(data.at[place] ?? 0), pen.y(data.error[place] ?? 0), Math.max(1.2 * size, 3 * scale), 0, 2 * Math.PI);
      context.fill();
      context.stroke();
    }
  });
}

/** Where the charts were begun anew, numbered as in the list below. */
function drawRestarts(pen: Pen, data: ChartData, look: Look, numbered: boolean): void {
  data.runs.slice(1).forEach((place, at) => {
    const day = data.at[place] ?? 0;
    pen.upright(day, { colour: look.strong, wide: 1.5, dashes: [2, 4] });
    if (!numbered) return;
    pen.within((context, scale) => {
      context.font = look.font.replace("13px", `${13 * scale}px`);
      context.fillStyle = look.ink;
      context.textBaseline = "top";
      context.fillText(number(at + 1), pen.x(day) + 5 * scale, pen.y(data.mostError) + 4 * scale);
    });
  });
}

function drawSums(pen: Pen, data: ChartData, look: Look): void {
  pen.level(data.alarm, { colour: look.strong, wide: 1.5, dashes: [7, 6] });
  drawRestarts(pen, data, look, false);
  pen.through(data.at, data.high, data.runs, { colour: look.ink, wide: 1.5 });
  pen.through(data.at, data.low, data.runs, { colour: look.ink, wide: 1.5, dashes: [5, 4] });
}

/** Draws into a box; `onDrawn` is called once, when both panes stand. */
export function plot(box: HTMLElement, wide: number, chart: ChartAnswer, words: PlotWords, onDrawn: () => void): Plots {
  const data = dataOf(chart), look = lookOf(box), key = `chart ${Math.random()}`;
  const whole: Range = { min: data.from, max: data.to };
  const panes: readonly Pane[] = [
    { title: words.errors, tall: ERRORS, low: -data.mostError, high: data.mostError, column: data.error, draw: (pen) => drawErrors(pen, data, chart, look) },
    { title: words.sums, tall: SUMS, low: 0, high: data.mostSum, column: data.high, draw: (pen) => drawSums(pen, data, look) },
  ];
  const plots: uPlot[] = [];
  let now: Range = whole;
  const isWhole = ({ min, max }: Range) => min <= whole.min && max >= whole.max;
  const show = (range: Range) => {
    now = { min: Math.max(whole.min, range.min), max: Math.min(whole.max, range.max) };
    for (const each of plots) each.setScale("x", now);
    words.onRange(isWhole(now) ? null : now);
  };
  for (const pane of panes) plots.push(new uPlot(optionsOf(pane, wide, look, key, show, () => show(whole), words.onPoint), [data.at, pane.column as number[]], box));
  show(whole);
  // A plot draws at the end of the stroke it was made in.
  queueMicrotask(onDrawn);
  return {
    show: (range) => show(range ?? whole),
    range: () => (isWhole(now) ? null : now),
    point: (place) => {
      const day = data.at[place], first = plots[0];
      if (day === undefined || !first) return;
      if (day < now.min || day > now.max) show({ min: day - (now.max - now.min) / 2, max: day + (now.max - now.min) / 2 });
      first.setCursor({ left: first.valToPos(day, "x"), top: first.valToPos(data.error[place] ?? 0, "y") });
    },
    end: () => plots.forEach((each) => each.destroy()),
  };
}

function optionsOf(pane: Pane, wide: number, look: Look, key: string, show: (range: Range) => void, showAll: () => void, onPoint: (place: number | null) => void): uPlot.Options {
  const grid = { stroke: look.line, width: 1 };
  const axis: uPlot.Axis = { stroke: look.ink, font: look.font, grid, ticks: grid };
  return {
    width: wide, height: pane.tall, padding: [8, RIGHT, 0, 0], legend: { show: false },
    scales: { x: { time: true }, y: { range: () => [pane.low, pane.high] } },
    axes: [
      { ...axis, space: 90, values: dayLabels },
      { ...axis, size: LEFT, space: 34, values: (_, marks) => marks.map((one) => number(one)) },
    ],
    series: [{}, { paths: () => null, points: { show: false }, stroke: look.ink }],
    cursor: {
      y: false, points: { show: false }, sync: { key, setSeries: false },
      drag: { x: true, y: false, dist: 8, setScale: false },
      bind: { dblclick: () => () => { showAll(); return null; } },
    },
    hooks: {
      draw: [(plotted) => pane.draw(new Pen(plotted))],
      setCursor: [(plotted) => onPoint(plotted.cursor.idx ?? null)],
      setSelect: [(plotted) => {
        const { left, width } = plotted.select;
        if (width > 0) show({ min: plotted.posToVal(left, "x"), max: plotted.posToVal(left + width, "x") });
        plotted.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
      }],
    },
  };
}
