import { deepStrictEqual, equal, match, ok } from 'node:assert/strict';
import { createHash } from 'node:crypto';
import * as l10n from '@vscode/l10n';
import german from '../../../l10n/bundle.l10n.de.json';
import { textOf } from '../../../src/base/messages';
import { daySheet, isDaySheet } from '../../../src/exchange/daySheet';
import { roomName } from '../../../src/planner/roomName';
import type { SheetOptions } from '../../../src/exchange/daySheet';
import { adviceOn } from '../../../src/exchange/jobGuide';
import { entryKinds } from '../../../src/planner/entry';
import type { Plan } from '../../../src/planner/plan';
import { keyText } from '../../../src/records/row';
import { readPage, tagsIn } from '../../support/pages';
import type { Tag } from '../../support/pages';
import { roomOf } from '../../support/room';
import type { RoomFiles } from '../../support/room';
import { sampleRoom } from '../../support/samples';

const files: RoomFiles = {
  'fishroom.json': '{"timezone":"Europe/Berlin","rounds":["19:00","08:00"]}',
  'species.csv': 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,feeds_per_day\nblue,cave,26,72,120,192,30,80,35,3\n',
  'rooms.csv': 'room\nback\nfront\n',
  'tanks.csv': 'tank,room,position\nT1,front,\nT2,back,2\nT3,front,\nT9,back,1\n',
  'clutches.csv': 'clutch,species,tank,spawned,hatched,eggs\nK1,blue,T1,2026-06-09T08:00,,100\nK2,blue,T2,2026-05-20,2026-05-23,50\nK3,blue,T3,2026-05-20,2026-05-23,50\nK9,blue,T9,2026-06-06T08:00,,9\n',
  'maintenance.csv': 'job,what,tanks,room,from,to\nJ1,New racks,,front,2026-06-11,2026-06-12\n',
  'routines.csv': 'routine,action,about,anchor,offset,level,every,done_by\ntest,Test it,tank,,2026-06-10,remind,,tested\n',
};

const sheet = (plan: Plan, options: SheetOptions = { days: 0 }): string => daySheet([{ name: 'My room', plan }], options);
const pagesOf = (text: string): readonly Tag[] => tagsIn(readPage(text), 'section');
const titleOf = (page: Tag): string => tagsIn(page, 'h1')[0]?.text ?? '';
const rowsOf = (page: Tag): readonly string[] => tagsIn(page, 'tr').map(({ text }) => text);

describe('a day sheet', () => {
  it('keeps what is due in the last half minute of a day on that day', () => {
    const plan = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,T1,2026-06-09T23:59:40'] }, '2026-06-10T09:00');
    match(sheet(plan), /<b>23:59 <\/b>/);
    ok(!sheet(plan).includes('00:00'));
  });

  it('is one file that needs nothing else, runs nothing, and has a policy that says so', () => {
    const text = sheet(roomOf(files, '2026-06-10T09:00'), { days: 3 });
    const page = readPage(text);
    const names = new Set<string>();
    const collect = ({ name, children }: Tag): void => {
      names.add(name);
      children.forEach(collect);
    };
    collect(page);
    deepStrictEqual([...names].filter((name) => ['script', 'img', 'link', 'iframe', 'object', 'form', 'input', 'svg', 'a'].includes(name)), []);
    equal(/url\(|@import|https?:|javascript:| on[a-z]+=| style=/.test(text), false);
    const policy = tagsIn(page, 'meta').find(({ attributes }) => attributes['http-equiv'] === 'Content-Security-Policy')?.attributes['content'];
    const [style] = tagsIn(page, 'style');
    // CSP level 2, "Valid Hashes": SHA-256 of the element's text, in base 64. Node's own is the reference.
    equal(policy, `default-src 'none'; style-src 'sha256-${createHash('sha256').update(style?.text ?? '').digest('base64')}'`);
    match(style?.text ?? '', /@page\{size:A4/);
    match(style?.text ?? '', /section\+section\{break-before:page/);
    equal(page.attributes['lang'], 'en');
    equal(isDaySheet(text), true);
    equal(isDaySheet(text.replace('name="generator"', 'name="other"')), false);
    equal(isDaySheet(''), false);
  });

  it('has a page for each room in walking order, what is overdue first, with boxes and blanks', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const pages = pagesOf(sheet(plan));
    deepStrictEqual(pages.map(titleOf), ['back', 'front', 'For all rooms']);
    const [back] = pages;
    deepStrictEqual(tagsIn(back as Tag, 'h2').map(({ text }) => text), ['Overdue', 'Feed', 'Today, Wednesday, 2026-06-10']);
    deepStrictEqual(rowsOf(back as Tag), [
      'T9 · K9blueHatched, gone, or not known?since Tuesday, 2026-06-09 08:00when',
      '08:00Feed: T2',
      '19:00Feed: T2',
      'T9Test it°CpHNH₃/NH₄NO₂NO₃',
      'T2Test it°CpHNH₃/NH₄NO₂NO₃',
    ]);
    for (const row of tagsIn(back as Tag, 'tr')) equal(tagsIn(row, 'span').filter(({ attributes }) => attributes['class'] === 'box').length, 1, row.text);
    match(back?.text ?? '', /Unplug heaters, lamps and pumps before hands go into the water/);
  });

  it('of several days puts the days of feeding beside each other, and each job on its day', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const pages = pagesOf(sheet(plan, { days: 2 }));
    deepStrictEqual(pages.map(titleOf), ['For whoever minds the room', 'back', 'front', 'For all rooms']);
    const front = pages[2] as Tag;
    deepStrictEqual(tagsIn(front, 'th').map(({ text }) => text), ['', '', 'We06-10', 'Th06-11', 'Fr06-12']);
    deepStrictEqual(rowsOf(front).filter((row) => row.includes('Feed:')), ['08:00Feed: T3', '19:00Feed: T3']);
    const days = tagsIn(front, 'h2').map(({ text }) => text);
    deepStrictEqual(days, ['Feed', 'Today, Wednesday, 2026-06-10', 'Thursday, 2026-06-11', 'Friday, 2026-06-12', 'May come in these days'].filter((day) => days.includes(day)));
    ok(rowsOf(front).some((row) => row.includes('K1blueHatched, gone, or not known?between Thursday, 2026-06-11 18:37 and Saturday, 2026-06-13 00:27when')));
    ok(rowsOf(front).includes('T1 T3 · J1New racks2026-06-11 to 2026-06-12'));
  });

  it('says to whoever minds the room what the jobs of these days mean, and what not to do', () => {
    const plan = roomOf(files, '2026-06-10T09:00');
    const [guide] = pagesOf(sheet(plan, { days: 2 }));
    const kinds = new Set<string>(plan.coming(2).entries.map(({ kind }) => kind));
    equal(tagsIn(guide as Tag, 'tr').length, kinds.size + 1, 'those and the feeding');
    for (const rule of [/feed more than is listed/, /Don't move fish/, /Eggs and fry: look from outside/, /Dead fish: take them out/, /No medication and no salt without the keeper[^]*veterinarian come first/, /pull the plugs of a tank before hands go into its water/, /never lift or shift a tank/]) match(guide?.text ?? '', rule);
    equal(pagesOf(sheet(plan)).length, 3, 'who is there knows it');
  });

  for (const days of [0, 6, 30]) {
    it(`holds each entry of the sample for ${days} days more once, and each tank that is fed`, async () => {
      const plan = await sampleRoom('three-rooms');
      const { entries, feedings } = plan.coming(days);
      const pages = pagesOf(sheet(plan, { days })).slice(days === 0 ? 0 : 1);
      const rooms = [...plan.records.file('rooms.csv')?.rows() ?? []].map(keyText);
      const titleOfRoom = (room: string): string => (room === '' ? 'For all rooms' : roomName(room, plan.records));
      deepStrictEqual(pages.map(titleOf), [...rooms.filter((room) => [...entries, ...feedings].some((each) => each.room === room)), ''].map(titleOfRoom));
      for (const page of pages) {
        const here = entries.filter(({ room }) => titleOfRoom(room) === titleOf(page));
        const rows = tagsIn(page, 'tr').filter((row) => row.children[0]?.attributes['class'] === 'tick' && !/^\d\d:\d\d(?:Feed|.*tanks:)/.test(row.text));
        const wanted = here.map(({ tanks, tank, clutch, pair, action, food }) => (food === undefined ? [tanks.length > 1 ? tanks.join(' ') : tank, clutch || pair, textOf(action)].join('|') : 'Brine shrimp'));
        const found = rows.map((row) => row.text);
        equal(found.length, wanted.length, titleOf(page));
        for (const each of new Set(wanted)) {
          const parts = each.split('|');
          ok(found.filter((row) => parts.every((part) => row.includes(part))).length >= wanted.filter((other) => other === each).length, `${titleOf(page)}: ${each}`);
        }
        for (const { tank } of feedings.filter(({ room }) => titleOfRoom(room) === titleOf(page))) ok(rowsOf(page).some((row) => / ?Feed: /.test(row) && row.split(/[ :]+/).some((word) => word.startsWith(tank))), `${tank} is not fed`);
      }
    });
  }

  it('says on each page what could not be read, so that nobody takes it for all there is', () => {
    const plan = roomOf({ 'tanks.csv': ['tank,room', 'T1,front'], 'clutches.csv': ['<<<<<<< mine', 'clutch,species,tank,spawned'] }, '2026-06-10T09:00');
    for (const days of [0, 3]) {
      const pages = pagesOf(sheet(plan, { days }));
      ok(pages.length > 0 && pages.every(({ text }) => text.includes("clutches.csv can't be read: nothing of it is on this page.")), pages.map(({ text }) => text).join('\n'));
    }
  });

  it('says so where nothing is to be done, and may be of one room', () => {
    const [empty] = pagesOf(sheet(roomOf({ 'tanks.csv': 'tank,room\nT1,front\n' }, '2026-06-10T09:00')));
    match(empty?.text ?? '', /^For all roomsWednesday, 2026-06-10[^]*Nothing is to be done here until Wednesday, 2026-06-10\./);
    deepStrictEqual(pagesOf(sheet(roomOf(files, '2026-06-10T09:00'), { days: 0, room: 'front' })).map(titleOf), ['front']);
  });

  it('shows what somebody wrote into a cell as a text', () => {
    const evil = '<img src=x onerror=alert(1)></td></script><script>alert(2)</script>" onload="x';
    const quoted = `"${evil.replaceAll('"', '""')}"`;
    const plan = roomOf({ ...files, 'rooms.csv': `room\n${quoted}\n`, 'tanks.csv': `tank,room\nT1,${quoted}\nT2,${quoted}\n`, 'clutches.csv': `clutch,species,tank,spawned,hatched\nK1,${quoted},T1,2026-06-09T08:00,\n${quoted},blue,T2,2026-05-20,2026-05-23\n`, 'maintenance.csv': `job,what,tanks,room,from,to\nJ1,${quoted},T1,,2026-06-10,2026-06-12\n` }, '2026-06-10T09:00');
    const text = daySheet([{ name: evil, plan }], { days: 3 });
    const page = readPage(text);
    equal(tagsIn(page, 'script').length + tagsIn(page, 'img').length, 0);
    ok(tagsIn(page, 'tr').some((row) => row.text.includes(evil)));
    ok(tagsIn(page, 'header').every((header) => header.text.includes(`${evil} · As of`)));
    equal(tagsIn(page, 'title')[0]?.text, `Day sheet · ${evil}`);
  });

  it('speaks German', () => {
    l10n.config({ contents: german });
    try {
      const plan = roomOf(files, '2026-06-10T09:00');
      const text = sheet(plan, { days: 2 });
      const page = readPage(text);
      equal(page.attributes['lang'], 'de');
      deepStrictEqual(pagesOf(text).map(titleOf), ['Für die Vertretung im Raum', 'back', 'front', 'Für alle Räume']);
      match(page.text, /Überfällig[^]*Heute, Mittwoch, 2026-06-10[^]*Donnerstag, 2026-06-11/);
      match(page.text, /Keine Medikamente und kein Salz ohne den Züchter/);
    } finally {
      l10n.config({ contents: {} });
    }
  });

  it('knows what every kind of job means', () => {
    const sentences = entryKinds.map((kind) => Object.values(adviceOn(kind)).map(textOf));
    ok(sentences.flat().every((sentence) => /^[A-Z].{20,}\.$/.test(sentence)));
    equal(new Set(sentences.flat()).size, 2 * entryKinds.length);
  });
});
