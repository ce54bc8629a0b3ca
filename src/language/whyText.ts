import { say, translated } from '../base/messages';
import type { Explanation } from '../planner/explanation';
import type { Field } from '../schema/descriptor';
import type { Part, Piece, Shown } from './hoverText';

/** More rows than that are told as a number. */
const MOST = 8;

/** How a computed cell came about: value, rule, window, what of it was recorded, learned or taken from the species, and all that went into it. */
export function whyText(explanation: Explanation, { field, text }: { readonly field: Field; readonly text: string }): Shown {
  const { value, formula, notes, inputs, constants, window } = explanation;
  const parts: (Part | undefined)[] = [
    text === value ? undefined : { kind: 'text', text: text === '' ? say('hover.unfilled') : say('hover.stale', text) },
    window === undefined ? undefined : { kind: 'text', text: say('hover.window', window.from, window.to, window.expected) },
    ...notes.map((note): Part => ({ kind: 'text', text: note })),
    basisOf(explanation),
    // Before the formula: an editor shows some fifteen lines at first, and the keeper's own rows are what can be looked after.
    list('hover.inputs', inputs.map(({ name, value: amount, place }): readonly Piece[] => [{ text: name, to: place }, { text: ': ' }, { text: amount }])),
    { kind: 'list', title: say('hover.how'), lines: [[{ text: formula }]] },
    list('hover.constants', constants.map(({ name, value: amount, unit, source, place }): readonly Piece[] => [
      { text: name, to: place },
      { text: ': ' },
      { text: unit === undefined ? amount : `${amount} ${unit}` },
      { text: ' (' },
      { text: source },
      { text: ')' },
    ])),
  ];
  const shown = field.unit === undefined ? value : `${value} ${field.unit}`;
  const title = translated(field.title);
  return { title: value === '' ? say('hover.title.empty', title) : say('hover.title.value', title, shown), beside: explanation.header, parts: parts.filter((part) => part !== undefined) };
}

/** How much of it was recorded, learned from the keeper's own broods, and taken from the profile of the species. */
function basisOf({ inputs, constants, window }: Explanation): Part | undefined {
  if (window === undefined) return undefined;
  const recorded = inputs.filter(({ place }) => place !== undefined).length;
  const profile = constants.filter(({ source }) => /^source\.(built-in|own)(-unnamed)?$/.test(source.code)).length;
  return { kind: 'text', text: say('hover.basis', recorded, window.observations, profile) };
}

function list(code: 'hover.inputs' | 'hover.constants', lines: readonly (readonly Piece[])[]): Part | undefined {
  if (lines.length === 0) return undefined;
  const shown = lines.length > MOST ? [...lines.slice(0, MOST), [{ text: say('hover.more', lines.length - MOST) }]] : lines;
  return { kind: 'list', title: say(code), lines: shown };
}
