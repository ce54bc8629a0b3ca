import { say } from '../../base/messages';
import { lengthsOutside } from '../../domain/measurements';
import type { Row } from '../../records/row';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import { lengthHeaderOf } from '../places';
import type { ClutchState } from '../states';

/** An expectation at a temperature that the model doesn't cover. Once for each clutch that is still open. */
export function outsideModel({ timeline, row, species }: ClutchState): readonly Found[] {
  if (timeline.ended !== undefined) return NOTHING;
  const outside = timeline.milestones.find((milestone) => milestone?.model?.outsideModel === true);
  const temperature = outside?.model?.temperature;
  if (outside === undefined || temperature === undefined) return [];
  const reading = temperature.rows.at(-1) as Row | undefined;
  return [
    {
      row,
      owner: row,
      header: undefined,
      code: 'outside-model',
      message: say('outside-model', temperature.celsius.toFixed(1), species ?? '', outside.rung.milestone),
      related: reading === undefined ? [] : [{ row: reading, header: 'temp_c', message: say('related.reading') }],
    },
  ];
}

/** Measured lengths that a growing fish of the species can't have; told while the clutch is open. */
export function lengthOutsideModel({ study, timeline, row, species }: ClutchState): readonly Found[] {
  if (study.entries.length === 0 || timeline.ended !== undefined) return NOTHING;
  const { hatch_mm: hatchMm = 0, max_mm: maxMm = 0 } = study.profile ?? {};
  return lengthsOutside(study).map(({ lengthMm = 0, row: logRow }) => ({
    row: logRow as Row,
    owner: row,
    header: lengthHeaderOf(logRow as Row),
    code: 'outside-model',
    message: say('outside-model.length', Number(lengthMm.toFixed(1)), hatchMm, maxMm, species ?? ''),
    related: [],
  }));
}
