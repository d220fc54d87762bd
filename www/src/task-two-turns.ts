// The task Two turns: turn, read the marks, see the stripes drift and meet again.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";
import "./sight-part.ts";
import "./tension-part.ts";
import "./wearing-part.ts";

@customElement("task-two-turns")
export class TaskTwoTurns extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    return html`
      <h2>${labels.two_turns_heading}</h2>
      <p class="lead">
        ${panel.crank_sentence}
        ${panel.shaft_sentence ? html`<strong class="out">${panel.shaft_sentence}</strong>` : nothing}
      </p>
      ${this.bench.lastTold ? html`<p class="told">${this.bench.lastTold}</p>` : nothing}
      <div class="buttons">
        <button type="button" class="main" @click=${() => this.bench.runBy(720)}>${labels.two_turns_forward}</button>
        <button type="button" @click=${() => this.bench.runTo(0)}>${labels.to_the_start}</button>
      </div>
      <div class="scroll"><table>
        <thead><tr><th scope="col">${labels.shaft}</th><th scope="col">${labels.mark}</th><th scope="col">${labels.against_crank}</th><th scope="col">${labels.back_every}</th></tr></thead>
        <tbody>
          ${panel.shafts.map(
            (row) => html`<tr>
              <th scope="row">${row.name}</th>
              <td>${said(row.mark, row.on ? "on" : "")}</td>
              <td>${said(row.against, row.in_time ? "" : "out")}</td>
              <td>${said(row.returns)}</td>
            </tr>`,
          )}
        </tbody>
      </table></div>

      <p class="caution">${labels.turn_caution}</p>
      ${panel.cautions.map((caution) => html`<p class="caution">${caution}</p>`)}
      ${panel.late.map((note) => html`<p class="caution">${note}</p>`)}
      <h3>${labels.at_each_turn}</h3>
      <div class="scroll"><table class="turns">
        <thead><tr>
          <th scope="col">${labels.turn_number}</th>
          ${panel.shafts.map((row) => html`<th scope="col">${row.name}</th>`)}
          <th scope="col">${labels.stripe}</th>
        </tr></thead>
        <tbody>
          ${panel.turns.map(
            (row) => html`<tr>
              <th scope="row">${row.turn}</th>
              ${row.marks.map((mark) => html`<td class=${mark.on ? "on" : "off"}>${mark.text}</td>`)}
              <td>${row.stripe}</td>
            </tr>`,
          )}
        </tbody>
      </table></div>

      <sight-part .bench=${this.bench}></sight-part>
      <tension-part .bench=${this.bench}></tension-part>
      <wearing-part .bench=${this.bench}></wearing-part>

      <h3>${labels.stripes_heading}</h3>
      <p>
        ${panel.stripe_sentence}
      </p>
      <dl class="pairs">
        <div><dt>${labels.stripe_from_mark}</dt><dd>${said(panel.stripe)}</dd></div>
        <div><dt>${labels.stripe_meets_every}</dt><dd>${said(panel.stripe_meets)}</dd></div>
        <div><dt>${labels.all_meet_every}</dt><dd>${said(panel.all_meet)}</dd></div>
      </dl>
      <div class="buttons">
        <button type="button" @click=${() => this.bench.runTo(panel.stripe_meets_at_deg)}>${labels.run_to_meet}</button>
        <button
          type="button"
          ?disabled=${panel.all_meet_at_deg === null}
          @click=${() => this.bench.runTo(panel.all_meet_at_deg ?? 0)}
        >${labels.run_to_meet_all}</button>
        <button type="button" ?disabled=${!this.bench.running} @click=${() => this.bench.stopRun()}>${labels.stop}</button>
      </div>
      <p class="note">${labels.key_note}</p>
    `;
  }
}
