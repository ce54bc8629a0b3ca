import { DAY, HOUR, atRound, firstGrowOut, nowWall, tankCount, tankName, written } from './house';
import type { Kind } from './house';
import { note } from './notes';
import type { Random } from './random';
import type { Cells } from './sheetText';

interface Brood {
  readonly kind: Kind;
  /** Where it was laid. */
  readonly tank: string;
  readonly spawned: number;
  readonly random: Random;
}

interface Happening {
  readonly time: number;
  readonly cells: Cells;
}

const fewest = 8;
const most = 25;

/** What a keeper writes of one brood up to now, 8 rows to 25 of them once it's over, and what the register says of it. */
export function broodLog(brood: Brood): { readonly rows: readonly Cells[]; readonly register: Cells } {
  const { kind, random, spawned } = brood;
  const eggs = Math.round(kind.eggs * random.factor(0.4));
  const hatched = spawned + kind.hatchHours * HOUR * random.factor(0.1);
  const freeSwimming = hatched + kind.freeSwimHours * HOUR * random.factor(0.1);
  const log: Happening[] = [];
  const add = (time: number, event: string, cells: Cells = {}): void => {
    log.push({ time, cells: { event, note: note(random), ...cells } });
  };
  add(spawned + random.between(6, 20) * HOUR, 'checked');
  add(spawned + random.between(21, 26) * HOUR, 'fungus', { count: random.whole(1, 25) });
  const fails = random.chance(0.35);
  let outcome: string;
  let end: number;
  if (fails && random.chance(0.5)) {
    outcome = random.pick(['eaten', 'fungus', 'infertile']);
    end = spawned + random.between(30, 45) * HOUR;
  } else {
    add(hatched, 'hatched');
    add(freeSwimming, 'free_swimming');
    add(freeSwimming + HOUR, 'first_feed');
    outcome = fails ? 'lost' : 'sold';
    end = fails ? freeSwimming + random.between(3, 12) * DAY : growOut(brood, { freeSwimming, fish: Math.round(eggs * random.between(0.2, 0.7)), add });
  }
  for (let i = log.length; i < fewest - 1; i++) add(spawned + (end - spawned) * random.between(0.2, 0.95), 'checked');
  add(end, 'ended');
  log.sort((a, b) => a.time - b.time);
  const happened = log.filter(({ time }) => time <= nowWall);
  const isOver = end <= nowWall;
  return {
    rows: happened.map(({ time, cells }) => ({ time: written(time), ...cells })),
    register: {
      eggs: random.chance(0.2) ? `~${Math.round(eggs / 10) * 10}` : eggs,
      ended: isOver && random.chance(0.5) ? written(end, 'day') : undefined,
      outcome: isOver ? outcome : undefined,
    },
  };
}

interface Growing {
  readonly freeSwimming: number;
  readonly fish: number;
  readonly add: (time: number, event: string, cells?: Cells) => void;
}

/** From the first count until the last fish is sold; gives that moment. Every take is of fish that are there. */
function growOut({ kind, tank: birthplace, random }: Brood, { freeSwimming, fish, add }: Growing): number {
  const elsewhere = (): string => tankName(random.whole(firstGrowOut, tankCount - 1));
  let time = atRound(freeSwimming + random.between(14, 21) * DAY, random);
  let budget = most - 8;
  const next = (event: string, cells: Cells, days: number): void => {
    add(time, event, cells);
    budget--;
    time = atRound(time + days * DAY, random);
  };
  next('counted', { count: fish, tank: birthplace }, 1);
  const stands = new Map<string, number>();
  const first = elsewhere();
  const second = elsewhere();
  if (fish > 60 && first !== second) {
    const half = Math.floor(fish / 2);
    next('moved', { tank: birthplace, count: half, to_tank: first }, 1);
    next('moved', { tank: birthplace, to_tank: second }, 14);
    stands.set(first, half).set(second, fish - half);
  } else {
    next('moved', { to_tank: first }, 14);
    stands.set(first, fish);
  }
  const take = (event: string, tank: string, cells: Cells & { readonly count: number }, days: number): void => {
    stands.set(tank, (stands.get(tank) as number) - cells.count);
    next(event, { tank, ...cells }, days);
  };
  for (let length = 9; length < 25 && budget > 6; length += random.between(5, 9)) {
    const tank = random.pick([...stands.keys()]);
    next('measured', { tank, length_mm: length.toFixed(1) }, 9);
    const event = random.pick(['lost', 'culled', 'fed', 'checked']);
    if (event === 'fed' || event === 'checked') next(event, {}, 9);
    else take(event, tank, { count: random.whole(1, 3) }, 9);
  }
  time = Math.max(time, atRound(freeSwimming + kind.saleDays * DAY, random));
  for (const [tank, there] of [...stands]) {
    let left = there;
    while (left > 0) {
      const count = budget <= 3 ? left : Math.min(left, random.whole(8, 40));
      const event = random.chance(0.06) ? 'kept' : 'sold';
      take(event, tank, { count, ...(event === 'sold' ? { unit_price: random.pick(['3.50', '4.00', '6.00']) } : {}) }, random.between(2, 9));
      left -= count;
    }
  }
  return time;
}
