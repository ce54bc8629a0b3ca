import { DAY, firstGrowOut, HOUR, house, kinds, nowWall, tankName, written, atRound } from './house';
import type { Kind } from './house';
import { note } from './notes';
import { Random } from './random';
import { sheetText } from './sheetText';
import type { Cells } from './sheetText';

const years = 14.5;

/** How broods that come to nothing end, as eggs or later, each as often as it's listed. */
const failures = { eggs: ['eaten', 'eaten', 'fungus', 'fungus', 'infertile', 'unknown'], young: ['eaten', 'eaten', 'lost', 'unknown'] };

/**
 * A fishroom whose records are one long register: `count` clutches of 14½ years, one pair to about fifty of them, 300
 * tanks, no logs. The same in every run; computed cells are empty.
 */
export function register(count: number): ReadonlyMap<string, string> {
  const random = new Random(20_260_610);
  const pairs: Cells[] = [];
  const clutches: { readonly spawned: number; readonly cells: Cells }[] = [];
  const perTank = count / firstGrowOut;
  for (let tank = 0; tank < firstGrowOut; tank++) {
    const here = Math.floor((tank + 1) * perTank) - Math.floor(tank * perTank);
    const interval = (years * 365.25 * DAY) / here;
    let left = 0;
    let pair: { readonly name: string; readonly kind: Kind } | undefined;
    let nth = 0;
    for (let i = 0; i < here; i++) {
      const time = atRound(nowWall - (here - i - random.between(0.1, 0.9)) * interval, random);
      const spawned = time > nowWall ? time - DAY : time;
      if (left-- <= 0) {
        left = random.whole(25, 75);
        nth = 0;
        const kind = random.pick(kinds);
        const name = `${kind.prefix}${pairs.length + 1}`;
        pair = { name, kind };
        pairs.push({
          pair: name,
          species: kind.species,
          tank: tankName(tank),
          formed: written(spawned - random.between(20, 90) * DAY, 'day'),
          retired: i + left < here - 1 ? written(spawned + (left + 1) * interval, 'day') : undefined,
          note: note(random),
        });
      }
      const { name, kind } = pair as { readonly name: string; readonly kind: Kind };
      clutches.push({ spawned, cells: clutch({ id: `${name}-${++nth}`, pair: name, kind, tank: tankName(tank), spawned, random }) });
    }
  }
  clutches.sort((a, b) => a.spawned - b.spawned);
  return new Map([
    ...house('Long register', random),
    ['pairs.csv', sheetText('pairs', pairs)],
    ['clutches.csv', sheetText('clutches', clutches.map(({ cells }) => cells))],
  ]);
}

interface Spawn {
  readonly id: string;
  readonly pair: string;
  readonly kind: Kind;
  readonly tank: string;
  readonly spawned: number;
  readonly random: Random;
}

function clutch({ id, pair, kind, tank, spawned, random }: Spawn): Cells {
  const fails = random.chance(0.6);
  const hatched = spawned + kind.hatchHours * HOUR * random.factor(0.1);
  const freeSwimming = hatched + kind.freeSwimHours * HOUR * random.factor(0.1);
  const ended = fails ? spawned + random.between(0.5, 12) * DAY : freeSwimming + kind.saleDays * DAY * random.between(0.8, 1.3);
  const last = Math.min(nowWall, ended);
  const eggs = Math.round(kind.eggs * random.factor(0.5));
  const sawHatch = random.chance(0.85);
  const isOver = ended <= nowWall;
  return {
    clutch: id,
    pair,
    tank,
    spawned: written(spawned, random.chance(0.1) ? 'day' : 'minute'),
    eggs: random.chance(0.15) ? undefined : random.chance(0.3) ? `~${Math.round(eggs / 10) * 10}` : eggs,
    hatched: hatched <= last && sawHatch ? written(hatched) : undefined,
    free_swimming: freeSwimming <= last && random.chance(sawHatch ? 0.8 : 0.15) ? written(freeSwimming, random.chance(0.4) ? 'day' : 'minute') : undefined,
    ended: isOver ? written(ended, 'day') : undefined,
    outcome: isOver ? (fails ? random.pick(hatched < ended ? failures.young : failures.eggs) : random.chance(0.04) ? 'kept' : 'sold') : undefined,
    note: note(random),
  };
}
