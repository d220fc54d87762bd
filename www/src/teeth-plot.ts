// The least gap of the shown cylinder's valves against teeth out, with the line below which they touch.
import { customElement } from "lit/decorators.js";
import type uPlot from "uplot";
import { type Colours, PlotElement, write } from "./plot.ts";

@customElement("teeth-plot")
export class TeethPlot extends PlotElement {
  protected override readonly count = 5;

  protected override heading(): string {
    return this.bench.labels.teeth_gap_heading;
  }

  protected override columns(): Float64Array {
    return this.bench.teethCurves();
  }

  protected override series(colours: Colours): uPlot.Series[] {
    const curve = (stroke: string, dash: number[]): uPlot.Series => ({
      stroke,
      width: 2,
      dash,
      points: { show: true, size: 5, fill: stroke },
    });
    const now = (stroke: string): uPlot.Series => ({
      stroke,
      width: 0,
      points: { show: true, size: 15, width: 2.5, fill: "transparent" },
    });
    return [
      curve(colours.intake, []),
      curve(colours.exhaust, [9, 4, 2, 4]),
      now(colours.intake),
      now(colours.exhaust),
    ];
  }

  protected override axes(): [string, string] {
    const { labels } = this.bench;
    return [labels.teeth_gap_across, `${labels.teeth_gap_up}, ${this.bench.engine.unit}`];
  }

  protected override range(data: readonly Float64Array[]): [number, number] {
    const gaps = [1, 2].flatMap((i) => Array.from(data[i] ?? [])).filter(Number.isFinite);
    const [low, high] = [Math.min(...gaps, 0), Math.max(...gaps, 0)];
    const room = Math.max(high - low, 0.01) * 0.12;
    return [low - room, high + 2 * room];
  }

  protected override ticks(): Pick<uPlot.Axis, "incrs" | "space"> {
    return { incrs: [1, 2], space: 16 };
  }

  protected override over(plot: uPlot, colours: Colours): void {
    const { labels } = this.bench;
    const { ctx } = plot;
    const y = plot.valToPos(0, "y", true);
    ctx.save();
    ctx.strokeStyle = colours.ink;
    ctx.lineWidth = 2.5 * (devicePixelRatio || 1);
    ctx.beginPath();
    ctx.moveTo(plot.bbox.left, y);
    ctx.lineTo(plot.bbox.left + plot.bbox.width, y);
    ctx.stroke();
    ctx.restore();
    // The words stand where the curves are furthest apart.
    const [teeth, intake, exhaust] = [0, 1, 2].map((i) =>
      Array.from((plot.data[i] ?? []) as number[]),
    );
    if (!teeth || !intake || !exhaust) return;
    const curves = [
      { own: intake, other: exhaust, text: labels.curve_intake, colour: colours.intake },
      { own: exhaust, other: intake, text: labels.curve_exhaust, colour: colours.exhaust },
    ];
    for (const { own, other, text, colour } of curves) {
      const above = own.map((gap, i) => gap - (other[i] || 0));
      const most = Math.max(...above);
      const [x, gap] = [teeth[above.indexOf(most)], own[above.indexOf(most)]];
      if (x !== undefined && gap !== undefined) write(plot, text, x, gap, colour);
    }
  }

  protected override start(): number {
    return this.bench.teethPlace();
  }

  protected override resting(): string {
    return this.bench.gapsNow();
  }

  protected override reading(place: number): string {
    return this.bench.teethReading(place);
  }
}
