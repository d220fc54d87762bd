// What is asked of the bench about the engine behind the belt: its pictures, and what may be turned with the
// belt off. Knows no element.
import type { BeltOffPart, EnginePart } from "../../generated/page.js";
import { LayoutBench } from "./layouts.ts";

export class EngineBench extends LayoutBench {
  /** The exponent of cranking pressures; 0 for a range. */
  setExponent(exponent: number): void {
    this.call((core) => core.setExponent(exponent));
    this.changed(true);
  }

  /** What may be turned with the belt off, and a way back to the marks. */
  beltOff(): BeltOffPart | undefined {
    return this.call((core) => core.beltOff()) ?? undefined;
  }

  /** What the page says of the engine's pictures; made anew when the readings are. */
  get engine(): EnginePart {
    this.engineSaid ??= this.call((core) => core.enginePart());
    if (!this.engineSaid) throw new Error("stopped");
    return this.engineSaid;
  }

  /** Shows a cylinder in section; below 0 the one with the least gap. */
  chooseCylinder(cylinder: number): void {
    this.call((core) => core.chooseCylinder(cylinder));
    this.changed(true);
  }

  paintSection(
    canvas: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ): void {
    this.call((core) => core.paintSection(canvas, width, height, density));
  }

  /** Where tags with the gaps go on the section, px: x and y one after the other. */
  sectionTags(width: number, height: number): Float64Array {
    return this.call((core) => core.sectionTags(width, height)) ?? new Float64Array();
  }

  valveCurves(): Float64Array {
    return this.call((core) => core.valveCurves()) ?? new Float64Array();
  }

  curveReading(place: number): string {
    return this.call((core) => core.curveReading(place)) ?? "";
  }

  teethCurves(): Float64Array {
    return this.call((core) => core.teethCurves()) ?? new Float64Array();
  }

  teethReading(place: number): string {
    return this.call((core) => core.teethReading(place)) ?? "";
  }

  /** What that plot reads for the present choice where its camshafts stand at different teeth. */
  gapsNow(): string {
    return this.call((core) => core.gapsNow()) ?? "";
  }

  /** Where on the plot of gaps against teeth the present choice is. */
  teethPlace(): number {
    return this.call((core) => core.teethPlace()) ?? 0;
  }

  /** A number on an axis. */
  axisNumber(number: number): string {
    return this.call((core) => core.axisNumber(number)) ?? "";
  }

  paintMap(
    canvas: CanvasRenderingContext2D,
    camshaft: number,
    size: number,
    density: number,
  ): void {
    this.call((core) => core.paintMap(canvas, camshaft, size, density));
  }

  mapReading(camshaft: number): string {
    return this.call((core) => core.mapReading(camshaft)) ?? "";
  }

  /** With the belt off, turns crank and camshaft to a point of the contact map. */
  mapTurn(camshaft: number, x: number, y: number, size: number, goesOn: boolean): void {
    this.endReplay();
    const told = this.call((core) => core.mapTurn(camshaft, x, y, size, goesOn));
    if (told && goesOn && told.done) this.changed(false);
    else this.tell(told ?? undefined);
  }

  /** With the belt off, turns crank and camshaft by so many degrees each. */
  mapStep(camshaft: number, crankDeg: number, camDeg: number): void {
    this.endReplay();
    this.tell(this.call((core) => core.mapStep(camshaft, crankDeg, camDeg)) ?? undefined);
  }
}
