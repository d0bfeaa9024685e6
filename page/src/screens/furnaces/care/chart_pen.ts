// Drawing on the canvas of a plot: places by the plot's own scales, colours and letters by the page's tokens.
import type uPlot from "uplot";

/** The tokens of the page as they stand now, light or dark. */
export interface Look {
  ink: string;
  soft: string;
  line: string;
  strong: string;
  sheet: string;
  font: string;
}

export function lookOf(element: Element): Look {
  const tokens = getComputedStyle(element);
  const token = (name: string) => tokens.getPropertyValue(name).trim();
  return { ink: token("--ink"), soft: token("--ink-soft"), line: token("--line"), strong: token("--line-strong"), sheet: token("--sheet"), font: `13px ${token("--letters")}` };
}

export interface Stroke {
  colour: string;
  wide: number;
  dashes?: readonly number[];
  alpha?: number;
}

export class Pen {
  private readonly scale = devicePixelRatio;
  constructor(private readonly plot: uPlot) {}

  x(at: number): number {
    return this.plot.valToPos(at, "x", true);
  }
  y(value: number): number {
    return this.plot.valToPos(value, "y", true);
  }

  /** Places of the columns that are in sight, with one more on either side so that lines go on to the edge. */
  inSight(): [from: number, to: number] {
    const [at] = this.plot.data;
    const { min = 0, max = 0 } = this.plot.scales["x"] ?? {};
    let from = 0, to = at.length;
    while (from + 1 < to && (at[from + 1] ?? 0) < min) from += 1;
    while (to - 2 > from && (at[to - 2] ?? 0) > max) to -= 1;
    return [from, to];
  }

  /** Draws within the plotting area, all at one stroke. */
  stroke({ colour, wide, dashes = [], alpha = 1 }: Stroke, draw: (context: CanvasRenderingContext2D) => void): void {
    this.within((context) => {
      context.strokeStyle = colour;
      context.globalAlpha = alpha;
      context.lineWidth = wide * this.scale;
      context.setLineDash(dashes.map((one) => one * this.scale));
      context.beginPath();
      draw(context);
      context.stroke();
    });
  }

  level(value: number, stroke: Stroke): void {
    const { left, width } = this.plot.bbox, y = this.y(value);
    this.stroke(stroke, (context) => {
      context.moveTo(left, y);
      context.lineTo(left + width, y);
    });
  }

  upright(at: number, stroke: Stroke): void {
    const { top, height } = this.plot.bbox, x = this.x(at);
    this.stroke(stroke, (context) => {
      context.moveTo(x, top);
      context.lineTo(x, top + height);
    });
  }

  /** A line through the values of a column, begun anew at each of `anew`. */
  through(at: readonly number[], values: readonly number[], anew: readonly number[], stroke: Stroke): void {
    const [from, to] = this.inSight();
    const begins = new Set(anew);
    this.stroke(stroke, (context) => {
      for (let place = from; place < to; place += 1) {
        const x = this.x(at[place] ?? 0), y = this.y(values[place] ?? 0);
        if (place === from || begins.has(place)) context.moveTo(x, y);
        else context.lineTo(x, y);
      }
    });
  }

  within(draw: (context: CanvasRenderingContext2D, scale: number) => void): void {
    const { ctx: context, bbox } = this.plot;
    context.save();
    context.beginPath();
    context.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    context.clip();
    draw(context, this.scale);
    context.restore();
  }
}
