// Both valves' lift and the piston over one cycle: the gap is the distance between the curves.
import { customElement } from "lit/decorators.js";
import type uPlot from "uplot";
import { type Colours, PlotElement, write } from "./plot.ts";

/** From what a curve's name belongs to, across. */
const ASIDE_DEG = { intake: 45, exhaust: -45, piston: 85 } as const;
const PLACES = { intake: 1, exhaust: 3, piston: 5 } as const;

@customElement("valve-curves")
export class ValveCurves extends PlotElement {
  protected override readonly count = 7;

  protected override heading(): string {
    return this.bench.labels.curves_heading;
  }

  protected override columns(): Float64Array {
    return this.bench.valveCurves();
  }

  protected override series(colours: Colours): uPlot.Series[] {
    const solid = (stroke: string) => ({ stroke, width: 2, points: { show: false } });
    const dashed = (stroke: string) => ({ ...solid(stroke), width: 1.25, dash: [5, 4] });
    return [
      solid(colours.intake),
      dashed(colours.intake),
      solid(colours.exhaust),
      dashed(colours.exhaust),
      solid(colours.piston),
      solid(colours.piston),
    ];
  }

  protected override axes(): [string, string] {
    const { labels } = this.bench;
    return [`${labels.curves_across}, °`, `${labels.curves_up}, ${this.bench.engine.unit}`];
  }

  /** A little above the valves: what the piston does far below them does not matter. */
  protected override range(data: readonly Float64Array[]): [number, number] {
    const lifts = [1, 2, 3, 4].flatMap((i) => Array.from(data[i] ?? []));
    return [0, Math.max(...lifts.filter(Number.isFinite), 0.01) * 1.45];
  }

  protected override ticks(): Pick<uPlot.Axis, "incrs" | "space"> {
    return { incrs: [90, 180], space: 34 };
  }

  protected override over(plot: uPlot, colours: Colours): void {
    const { labels } = this.bench;
    const column = (i: number): number[] => Array.from((plot.data[i] ?? []) as number[]);
    for (const key of ["intake", "exhaust"] as const) {
      const lift = column(PLACES[key]);
      const most = Math.max(...lift);
      const at = plot.data[0]?.[lift.indexOf(most)];
      if (at !== undefined && Number.isFinite(most)) {
        // Apart, since the peaks stand near each other.
        write(plot, labels[`curve_${key}`], at + ASIDE_DEG[key], most, colours[key]);
      }
    }
    const depth = column(PLACES.piston).some(Number.isFinite) ? PLACES.piston : PLACES.piston + 1;
    const room = column(depth)[360];
    if (room !== undefined) {
      const { y } = plot.scales;
      write(plot, labels.curve_piston, ASIDE_DEG.piston, (y?.max ?? 0) * 0.94, colours.piston);
    }
  }

  protected override start(): number {
    return 360;
  }

  protected override reading(place: number): string {
    return this.bench.curveReading(place);
  }
}
