import { DAY, HOUR, atRound, firstGrowOut, house, kinds, nowWall, roomOf, tankCount, tankName, written } from './house';
import type { Kind } from './house';
import { broodLog } from './broodLog';
import { note } from './notes';
import { Random } from './random';
import { sheetText } from './sheetText';
import type { Cells } from './sheetText';

const years = 6;

const logColumns = ['time', 'event', 'tank', 'count', 'length_mm', 'to_tank', 'unit_price', 'note'];
const tankLogColumns = ['time', 'event', 'temp_c', 'ph', 'tan_mg_l', 'no2_mg_l', 'no3_mg_l', 'kh_dh', 'ec_us_cm', 'change_pct', 'note'];

/**
 * A fishroom of `count` clutches over six years, each with a log of its own of 8 to 25 rows, 300 tanks with logs, and readings
 * of whole rooms. The same in every run; computed cells are empty.
 */
export function room(count: number): ReadonlyMap<string, string> {
  const random = new Random(20_260_611);
  const pairs: Cells[] = [];
  const clutches: { readonly spawned: number; readonly cells: Cells }[] = [];
  const logs = new Map<string, string>();
  const perTank = count / firstGrowOut;
  for (let tank = 0; tank < firstGrowOut; tank++) {
    const here = Math.floor((tank + 1) * perTank) - Math.floor(tank * perTank);
    const interval = (years * 365.25 * DAY) / here;
    let pair: { readonly name: string; readonly kind: Kind } | undefined;
    let nth = 0;
    for (let i = 0; i < here; i++) {
      const time = atRound(nowWall - (here - i - random.between(0.2, 0.8)) * interval, random);
      const spawned = time > nowWall ? time - DAY : time;
      if (pair === undefined || nth > 25) {
        const kind = random.pick(kinds);
        pair = { name: `${kind.prefix}${pairs.length + 1}`, kind };
        nth = 0;
        pairs.push({ pair: pair.name, species: kind.species, tank: tankName(tank), formed: written(spawned - 60 * DAY, 'day'),
          retired: i + 26 < here ? written(spawned + 26 * interval, 'day') : undefined, note: note(random) });
      }
      const id = `${pair.name}-${++nth}`;
      const brood = broodLog({ kind: pair.kind, tank: tankName(tank), spawned, random });
      const year = written(spawned).slice(0, 4);
      logs.set(`clutches/${year}/${id}.csv`, sheetText('clutch-log', brood.rows, logColumns));
      const cells = { clutch: id, pair: pair.name, tank: tankName(tank), spawned: written(spawned), note: note(random), ...brood.register };
      clutches.push({ spawned, cells });
    }
  }
  clutches.sort((a, b) => a.spawned - b.spawned);
  for (let tank = 0; tank < tankCount; tank++) logs.set(`tanks/${tankName(tank)}.csv`, sheetText('tank-log', tankLog(random), tankLogColumns));
  return new Map([
    ...house('Many logs', random),
    ['pairs.csv', sheetText('pairs', pairs)],
    ['clutches.csv', sheetText('clutches', clutches.map(({ cells }) => cells))],
    ['readings.csv', sheetText('readings', roomReadings(random), ['time', 'room', 'event', 'temp_c', 'no3_mg_l', 'change_pct', 'note'])],
    ...logs,
  ]);
}

/** A test or a change of water about every other week. */
function tankLog(random: Random): readonly Cells[] {
  const rows: Cells[] = [];
  const warmth = random.between(24.5, 28.5);
  for (let day = years * 365; day > 1; day -= random.between(7, 22)) {
    const change = random.chance(0.6);
    rows.push({
      time: written(atRound(nowWall - day * DAY, random)),
      event: change ? 'water_change' : undefined,
      temp_c: (warmth + random.between(-0.6, 0.6)).toFixed(1),
      ph: random.chance(0.4) ? random.between(6.4, 7.4).toFixed(1) : undefined,
      tan_mg_l: random.chance(0.2) ? 0 : undefined,
      no3_mg_l: random.chance(0.3) ? random.whole(5, 40) : undefined,
      kh_dh: random.chance(0.2) ? random.whole(2, 5) : undefined,
      ec_us_cm: random.chance(0.4) ? random.whole(250, 420) : undefined,
      change_pct: change ? random.pick([25, 30, 40, 50]) : undefined,
      note: note(random),
    });
  }
  return rows;
}

/** The thermometers on the walls, once a week. */
function roomReadings(random: Random): readonly Cells[] {
  const rows: Cells[] = [];
  for (let week = Math.floor((years * 365) / 7); week > 0; week--) {
    for (let i = 0; i < 3; i++) {
      const time = nowWall - week * 7 * DAY + i * HOUR;
      rows.push({ time: written(time), room: roomOf(i), temp_c: random.between(25, 27).toFixed(1), note: note(random) });
    }
  }
  return rows;
}
