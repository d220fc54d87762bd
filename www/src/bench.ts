// The page's hold on the program, whole. Each file of `bench/` adds what one part of the page asks of it, from
// `program.ts` up; here are demonstrations and exercises, which put everything below aside.
import type { ClassAnswer, DemonstrationRow } from "../generated/page.js";
import { EngineBench } from "./bench/engine.ts";
import { still } from "./bench/program.ts";

export type { Sheet } from "./bench/layouts.ts";

export class Bench extends EngineBench {
  /** What is on the bench is about to be put aside: a replay under way is at its end at once, and nothing of it
   * stays in view. */
  #putAside(): void {
    if (this.counted) this.showCounts(false);
    for (let left = this.toReplay; left > 0; left -= 1) this.call((core) => core.redo());
    this.endReplay();
  }

  demonstrations(): DemonstrationRow[] {
    return this.call((core) => core.demonstrations())?.rows ?? [];
  }

  /** Puts a demonstration on the bench, and what was there aside. */
  startDemonstration(id: string): void {
    this.#putAside();
    this.call((core) => core.startDemonstration(id));
    this.otherLayout();
    this.dispatchEvent(new Event("look"));
  }

  /** Goes to a step of it; to the one where it is already, everything is put back as that step leaves it. */
  goToStep(step: number): void {
    this.endReplay();
    this.lastTold = "";
    this.runs = this.call((core) => core.goToStep(step, still())) ?? false;
    this.readNow();
    this.dispatchEvent(new Event("look"));
    this.changed(true);
  }

  /** Hides the fault of a number on the bench, and puts what was there aside. */
  startExercise(number: number): void {
    this.#putAside();
    this.call((core) => core.startExercise(number));
    this.otherLayout();
    this.dispatchEvent(new Event("look"));
  }

  /** Whether something is hidden on the bench, so that no reading may be shown. */
  get hides(): boolean {
    return this.exercise !== undefined && !this.exercise.open;
  }

  lookSquare(square: boolean): void {
    this.call((core) => core.lookSquare(square));
    this.changed(true);
  }

  /** Everything as the class found it. */
  asFound(): void {
    this.call((core) => core.asFound());
    this.lastTold = "";
    this.runs = false;
    this.changed(true);
  }

  /** How far an answer has a shaft out, in words. */
  answerTeeth(teeth: number): string {
    return this.call((core) => core.answerTeeth(teeth)) ?? "";
  }

  giveAnswer(answer: ClassAnswer): void {
    this.call((core) => core.giveAnswer(answer));
    this.changed(true);
  }

  /** Shows what is hidden. */
  openExercise(): void {
    this.call((core) => core.openExercise());
    this.changed(true);
  }

  /** Ends what is shown: what was put aside is on the bench again. */
  endLesson(): void {
    if (!this.lesson && !this.exercise) return;
    this.call((core) => core.endLesson());
    this.otherLayout();
    this.dispatchEvent(new Event("look"));
  }
}
