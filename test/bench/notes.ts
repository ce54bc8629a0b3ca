import type { Random } from './random';

const plain = [
  'laid on the slate',
  'pair guards well',
  'female very round again',
  'second batch behind the filter',
  'light left on over night',
  'water a little cloudy',
  'male chased her off after an hour',
  'first ones hanging on the glass',
  'moved the cave half a turn',
  'few and small this time',
  'fed twice by the neighbour',
  'the big one on the left was not seen',
];

const withComma = ['laid on the slate, then on the heater guard', 'ate most of them, rest looks good', 'soft water again, 20 % from the butt', 'strong brood, all of one size'];

const withQuotation = ['the "new" female from rack two', 'marked "B" on the lid', 'my notebook says "about a third"'];

/** What a keeper jots down in about one row of six; some of it with a comma or quotation marks, so that it has to stand in quotes. */
export function note(random: Random): string | undefined {
  if (!random.chance(1 / 6)) return undefined;
  if (random.chance(0.1)) return random.pick(withQuotation);
  return random.pick(random.chance(0.25) ? withComma : plain);
}
