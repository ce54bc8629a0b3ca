import { html, nothing, svg } from 'lit-html';
import type { TemplateResult } from 'lit-html';
import type { Chart, ChartMark, ChartPanel, ChartSign, PlacedText, Point, SignedPoint } from '../../src/protocol/chart';

/**
 * A chart as a figure: its title and what it says in sentences, the drawing, what the signs mean, and the values as a table. The style is in `chart.css`.
 * `name` keeps its ids apart from those of other charts of the same page.
 */
export function chartFigure(chart: Chart, name: string): TemplateResult {
  const { title, says, width, height, table } = chart;
  const [titleId, saysId, hatchId] = [`${name}-title`, `${name}-says`, `${name}-hatch`];
  return html`<figure class="chart">
    <figcaption>
      <h3 id=${titleId}>${title}</h3>
      <div id=${saysId}>${says.map((text) => html`<p>${text}</p>`)}</div>
    </figcaption>
    <svg class="chart-drawing" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby=${titleId} aria-describedby=${saysId}>
      <defs>${hatch(hatchId)}</defs>
      ${daysOf(chart)} ${nowOf(chart)} ${chart.panels.map((panel) => panelOf(panel, chart, hatchId))}
    </svg>
    ${keyOf(chart, `${name}-key-hatch`)}
    <details class="chart-values">
      <summary>${table.caption}</summary>
      <div class="chart-table" tabindex="0" role="region" aria-label=${table.caption}>
        <table>
          <caption>${table.caption}</caption>
          <thead><tr>${table.headers.map((header) => html`<th scope="col">${header}</th>`)}</tr></thead>
          <tbody>${table.rows.map((row) => html`<tr>${row.map((cell, i) => (i === 0 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`))}</tr>`)}</tbody>
        </table>
      </div>
    </details>
  </figure>`;
}

function hatch(id: string): TemplateResult {
  return svg`<pattern id=${id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="chart-hatch" x1="0" y1="0" x2="0" y2="6" /></pattern>`;
}

function daysOf({ days, panels, left, right }: Chart): TemplateResult {
  return svg`${panels.map(
    ({ top, bottom }) => svg`${days.ticks.map(({ x }) => svg`<line class="chart-grid" x1=${x} x2=${x} y1=${top} y2=${bottom} />`)}<line class="chart-axis" x1=${left} x2=${right} y1=${bottom} y2=${bottom} />`,
  )}${days.ticks.map(({ x, text, anchor }) => textOf({ x, y: days.y, text, anchor }, 'chart-tick'))}`;
}

function panelOf({ label, ticks, marks }: ChartPanel, { left, right }: Chart, hatchId: string): TemplateResult {
  return svg`${ticks.map(({ y, text }) => svg`<line class="chart-grid" x1=${left} x2=${right} y1=${y} y2=${y} />${textOf({ x: left - 6, y: y + 4, text, anchor: 'end' }, 'chart-tick')}`)}
    ${textOf(label, 'chart-label')}
    ${marks.map((mark) => markOf(mark, { left, right, hatchId }))}`;
}

function markOf(mark: ChartMark, { left, right, hatchId }: { readonly left: number; readonly right: number; readonly hatchId: string }): TemplateResult {
  switch (mark.kind) {
    case 'window':
      return svg`<polygon class="chart-window" fill="url(#${hatchId})" points=${pairs(mark.points)} />`;
    case 'limit':
      return svg`<line class="chart-limit" x1=${left} x2=${right} y1=${mark.y} y2=${mark.y} />${textOf(mark.label, 'chart-name')}`;
    case 'line':
      return svg`<polyline class="chart-line chart-${mark.sign}" points=${pairs(mark.points)} />`;
    case 'points':
      return svg`${mark.points.map(pointOf)}`;
    case 'name':
      return textOf(mark.label, 'chart-name');
  }
}

function pointOf(point: SignedPoint): TemplateResult {
  return svg`<g>${signAt(point, point.sign)}<title>${point.says}</title></g>`;
}

/** Recorded ones are filled, what is no more than an estimate is a ring, and what is expected a diamond, so that nobody needs the colours. */
function signAt({ x, y }: Point, sign: SignedPoint['sign']): TemplateResult {
  if (sign === 'expected') return svg`<path class="chart-point chart-expected" d="M${x} ${y - 5}L${x + 5} ${y}L${x} ${y + 5}L${x - 5} ${y}Z" />`;
  return svg`<circle class="chart-point chart-${sign}" cx=${x} cy=${y} r="3" />`;
}

function nowOf({ now, panels }: Chart): TemplateResult | typeof nothing {
  const [first, last] = [panels[0], panels.at(-1)];
  if (now === undefined || first === undefined || last === undefined) return nothing;
  return svg`<line class="chart-now" x1=${now.x} x2=${now.x} y1=${now.y + 4} y2=${last.bottom} />${textOf(now, 'chart-name')}`;
}

function textOf({ x, y, text, anchor }: PlacedText, name: string): TemplateResult {
  return svg`<text class=${name} x=${x} y=${y} text-anchor=${anchor}>${text}</text>`;
}

function pairs(points: readonly Point[]): string {
  return points.map(({ x, y }) => `${x},${y}`).join(' ');
}

function keyOf({ key }: Chart, hatchId: string): TemplateResult {
  return html`<ul class="chart-key">
    ${key.map(({ sign, text }) => html`<li><svg viewBox="0 0 24 12" width="24" height="12" aria-hidden="true">${sign === 'window' ? svg`<defs>${hatch(hatchId)}</defs>` : nothing}${sampleOf(sign, hatchId)}</svg>${text}</li>`)}
  </ul>`;
}

function sampleOf(sign: ChartSign, hatchId: string): TemplateResult {
  switch (sign) {
    case 'window':
      return svg`<rect class="chart-window" fill="url(#${hatchId})" x="1" y="1" width="22" height="10" />`;
    case 'expected-line':
      return svg`<line class="chart-line chart-expected" x1="0" x2="24" y1="6" y2="6" />`;
    case 'fitted':
      return svg`<line class="chart-line chart-fitted" x1="0" x2="24" y1="6" y2="6" />`;
    case 'recorded':
    case 'estimate':
    case 'expected':
      return signAt({ x: 12, y: 6 }, sign);
  }
}
