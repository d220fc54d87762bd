// What the view and the dial ask of the bench: what is under a hand, where things go, to be painted. Knows no
// element.
import type { Held, Opened } from "../../generated/page.js";
import { readPalette } from "../palette.ts";
import { ProgramBench } from "./program.ts";

export class ViewBench extends ProgramBench {
  /** Whether a hand in the view moves wheels to other places. */
  arranging = false;
  #probe: HTMLElement | undefined;

  /** Shows the belt's teeth counted, or no longer. */
  showCounts(counted: boolean): void {
    this.counted = counted;
    this.call((core) => core.showCounts(counted));
    this.changed(true);
  }

  /** Where tags of these sizes with the counts go; empty while they are not shown. */
  countTags(sizes: number[]): Float64Array {
    return this.call((core) => core.countTags(new Float64Array(sizes))) ?? new Float64Array();
  }

  /** Where the letters of marks that are not the timing mark go, px: x and y one after the other. */
  letterTags(): Float64Array {
    return this.call((core) => core.letterTags()) ?? new Float64Array();
  }

  /** The drive as it stands, as an SVG file. */
  svg(): string {
    return this.call((core) => core.svg()) ?? "";
  }

  /** Index of the wheel with this id in what is shown; −1 if there is none. */
  wheelIndex(id: string | null | undefined): number {
    return (this.panel.draft?.wheels ?? this.panel.wheels).findIndex((wheel) => wheel.id === id);
  }

  grab(x: number, y: number): Held | undefined {
    return this.call((core) => core.grab(x, y)) ?? undefined;
  }

  dragTo(x: number, y: number, goesOn: boolean): void {
    this.endReplay();
    const told = this.call((core) => core.dragTo(x, y, goesOn));
    if (!told) return;
    this.runs = false;
    // Under a hand only what stops it is worth a word.
    if (told.stopped && told.text !== this.lastTold) this.tell(told);
    else this.changed(false);
  }

  /** Whether a hand in the view moves wheels to other places. */
  arrange(on: boolean): void {
    this.arranging = on;
    this.dispatchEvent(new Event("labels"));
  }

  /** Takes hold of the wheel at a point of the view to move it; −1 if there is none. */
  takeWheel(x: number, y: number): number {
    return this.call((core) => core.takeWheel(x, y)) ?? -1;
  }

  moveWheelTo(x: number, y: number, goesOn: boolean): void {
    this.#moved(this.call((core) => core.moveWheelTo(x, y, goesOn)));
  }

  nudgeWheel(wheel: number, rightMm: number, upMm: number): void {
    this.#moved(this.call((core) => core.nudgeWheel(wheel, rightMm, upMm)));
  }

  /** A wheel is elsewhere: the view stays as it is. */
  #moved(opened: Opened | undefined): void {
    if (!opened) return;
    this.endReplay();
    this.runs = false;
    this.draftProblems = opened.problems;
    this.draftText = this.call((core) => core.writtenText()) ?? this.draftText;
    if (opened.problems.length === 0) this.layoutText = this.draftText;
    this.arranged = true;
    this.changed(false);
  }

  dialAngle(x: number, y: number, size: number): number {
    return this.call((core) => core.dialAngle(x, y, size)) ?? Number.NaN;
  }

  /** Where tags of these sizes beside each run's slack go, px: x and y one after the other. */
  slackCrowns(sizes: number[]): Float64Array {
    return this.call((core) => core.slackCrowns(new Float64Array(sizes))) ?? new Float64Array();
  }

  setPalette(probe: HTMLElement): void {
    this.#probe = probe;
    this.call((core) => core.setPalette(readPalette(probe)));
    this.dispatchEvent(new Event("palette"));
    this.changed(false);
  }

  /** Light colours for paper, and back again. */
  forPaper(on: boolean): void {
    const { style } = document.documentElement;
    style.colorScheme = on ? "light" : this.preferences.theme || "light dark";
    if (this.#probe) this.setPalette(this.#probe);
  }

  setSize(width: number, height: number, side: number, reserved: number[]): void {
    this.call((core) => core.setSize(width, height, side, new Float64Array(reserved)));
    this.changed(false);
  }

  keepLabelsOff(over: number[]): void {
    this.call((core) => core.keepLabelsOff(new Float64Array(over)));
  }

  setZoom(zoom: number, panX: number, panY: number): void {
    this.call((core) => core.setZoom(zoom, panX, panY));
    this.changed(false);
  }

  placeLabels(sizes: number[]): Float64Array {
    return this.call((core) => core.placeLabels(new Float64Array(sizes))) ?? new Float64Array();
  }

  paintDrive(canvas: CanvasRenderingContext2D, density: number): void {
    this.call((core) => core.paintDrive(canvas, density));
  }

  paintDial(canvas: CanvasRenderingContext2D, size: number, density: number): void {
    this.call((core) => core.paintDial(canvas, size, density));
  }
}
