import assert from 'node:assert/strict';
import Papa from 'papaparse';
import { defaultSpeciesText } from '../../src/schema/defaults';

/**
 * The numbers of the species that come with the tool against what was read, each beside its source; whatever isn't here
 * is common practice. Addresses are where the text was seen; most of papers only the abstract was.
 */
const rows = new Map(
  Papa.parse<Readonly<Record<string, string>>>(defaultSpeciesText, { header: true, skipEmptyLines: true }).data.map((row) => [row['species'], row]),
);

interface Published {
  readonly source: string;
  /** Column → the value printed, or the least and the greatest. */
  readonly values: Readonly<Record<string, number | readonly [number, number]>>;
}

const published: Readonly<Record<string, Published>> = {
  angelfish: {
    // "day 3 after spawning at 24±1 °C", 4.24 mm TL, yolk gone 6 DAH, swimming 3-4 days after 3 DAH, juveniles at 23-24 DAH
    source: 'Çelik et al. 2014, Turkish Journal of Fisheries and Aquatic Sciences 14:863-874, trjfas.org/abstract.php?id=26',
    values: { ref_temp_c: 24, hatch_h: 72, first_feed_h: 144, free_swim_h: [144, 168], juvenile_d: [23, 24], hatch_mm: 4.24 },
  },
  discus: {
    // "At 3 days, the mouth was open and exclusively rely on exogenous food"; larval and prejuvenile period over at 30-35 days
    source: 'Çelik, Characterization by microphotography of larval and prejuvenile stage of discus fish, scholarscentral.com (106688)',
    values: { first_feed_h: 72, juvenile_d: [30, 35] },
  },
  betta: {
    // 29 hpIC at 28.4 °C, 2.47 mm TL, yolk absorbed at 73 h and juveniles at 768 h after hatching
    source: 'Valentin et al. 2013, Zygote, Early development of Betta splendens, cambridge.org (F916C922F11F0EA4D751024C3ACDF37D)',
    values: { ref_temp_c: 28.4, hatch_h: 29, first_feed_h: 73, juvenile_d: 768 / 24, hatch_mm: 2.47 },
  },
  'golden-dwarf-cichlid': {
    source: 'Early development and allometric growth in Nannacara anomala, Neotropical Ichthyology, scielo.br/j/ni/a/ggLCVLM4Kfk4wtYbLkTfXSp',
    values: { ref_temp_c: 26, juvenile_d: 18, hatch_mm: 3.74 },
  },
  ram: {
    source: 'Wikipedia, Ram cichlid, w.owiki.org/wiki/Ram_cichlid',
    values: { ref_temp_c: 29, hatch_h: 40, free_swim_h: 120, temp_min_c: 25.5, temp_max_c: 29.5, ph_min: 5.2, ph_max: 6.7 },
  },
  'convict-cichlid': {
    source: 'Wikipedia, Convict cichlid, liquisearch.com/convict_cichlid/reproduction',
    values: { hatch_h: 72, first_feed_h: 72, free_swim_h: 72 },
  },
  'dwarf-gourami': {
    source: 'FishBase, reproduction of Trichogaster lalius, fishbase.de',
    values: { hatch_h: [12, 24], free_swim_h: 72 },
  },
  'pearl-gourami': {
    source: 'Encyclopedia of Life, Trichopodus leerii, api.eol.org/pages/211217/articles',
    values: { hatch_h: [20, 30] },
  },
  'three-spot-gourami': {
    source: 'Morioka et al. 2012, Ichthyological Research 59:53-62, scribd.com/document/363627973',
    values: { first_feed_h: 72, hatch_mm: 2.5 },
  },
  zebrafish: {
    // hatching is spread over the third day; the rate is 0 at 0.57 / 0.055 °C (reckoned from H_T = h / (0.055 T - 0.57))
    source: 'Kimmel et al. 1995, Developmental Dynamics 203:253-310, zfin.org/zf_info/zfbook/stages/hatch.html and figs/fig2.html',
    values: { ref_temp_c: 28.5, hatch_h: [48, 72], zero_temp_c: [10.36, 10.37] },
  },
  'black-tetra': {
    source: 'Çelik et al. 2012, Aquaculture Research, Embryonic and larval development of black skirt tetra, zendy.io (10.1111/j.1365-2109.2011.02930.x)',
    values: { ref_temp_c: 24, hatch_h: [20, 21], first_feed_h: [72, 96], free_swim_h: [72, 96], juvenile_d: 32, hatch_mm: [1.44, 1.45] },
  },
  'serpae-tetra': {
    source: 'Çelik and Cirik 2019, Aquaculture Research, 10.1111/are.14375, avesis.comu.edu.tr',
    values: { ref_temp_c: 26, hatch_h: [20, 21], first_feed_h: 96, free_swim_h: 96, juvenile_d: 30, hatch_mm: 2.64 },
  },
  'neon-tetra': {
    source: 'Effect of temperature on incubation period … of neon tetra, JIFA, epubs.icar.org.in/index.php/JIFA/article/view/138660',
    values: { ref_temp_c: 26, hatch_h: [24, 26] },
  },
  'tiger-barb': {
    source: 'allfishes.org/fishes/aquarium-fish/sumatra-barb',
    values: { ref_temp_c: [25, 26], hatch_h: [24, 36] },
  },
  'rosy-barb': {
    source: 'Sepil et al. 2025, The Palawan Scientist 17:61-74, ouci.dntb.gov.ua/en/works/73mBm68l',
    values: { ref_temp_c: 26.3, hatch_h: 27, first_feed_h: 96, hatch_mm: [4.22, 4.23] },
  },
  'white-cloud': {
    source: 'Embryonic, larval, and juvenile development of Tanichthys albonubes (abstract), biosci.alljournals.cn',
    values: { ref_temp_c: [25.5, 26.9], hatch_h: [45, 53], hatch_mm: [2.2, 2.6] },
  },
  goldfish: {
    source: 'Battle 1940, Ohio Journal of Science 40:82-93, as tabulated at storefish.org/references/234',
    values: { ref_temp_c: 25, hatch_h: [72, 96], hatch_mm: 4.5 },
  },
  medaka: {
    // 250 degree-days: 10 days at 25 °C
    source: 'Rule of thumb of Japanese keepers, medaka-secret-base.com/egg-fuka',
    values: { ref_temp_c: 25, zero_temp_c: 0, hatch_h: 240 },
  },
  'steel-blue-killifish': {
    source: 'Breeding Fundulopanchax gardneri Jos Plateau, aquainfo.org (74 °F, "two-week mop-spawning", 2 ½ inches)',
    values: { ref_temp_c: [23.3, 23.4], hatch_h: 14 * 24, max_mm: [63, 64] },
  },
  'murray-rainbowfish': {
    source: 'Early development of the Australian crimson-spotted rainbowfish, Marine and Freshwater Research 46:475-480, 1995, publish.csiro.au/mf/MF9950475',
    values: { ref_temp_c: 25.5, hatch_h: [7 * 24, 9 * 24], first_feed_h: 12, free_swim_h: [10, 12], hatch_mm: 4.2 },
  },
  'yellow-lab': {
    source: 'seriouslyfish.com/species/labidochromis-caeruleus',
    values: { temp_min_c: 24, temp_max_c: 28, ph_min: 7.7, ph_max: 8.6 },
  },
  'red-zebra': {
    source: 'Wikipedia, Maylandia estherae, wikimili.com/en/Maylandia_estherae',
    values: { release_d: 21, max_mm: 127 },
  },
  frontosa: {
    source: 'Fishroom talk on Cyphotilapia frontosa, cichlidae.com/article.php?id=284',
    values: { release_d: [24, 28] },
  },
  guppy: {
    source: 'Adventist Youth Honors Answer Book, Fishes, wiki.pathfindersonline.org',
    values: { interval_d: 28 },
  },
  platy: {
    source: 'Wikipedia, Southern platyfish, princeton.edu/~achaney',
    values: { max_mm: 60, temp_min_c: 18, temp_max_c: 25, ph_min: 7, ph_max: 8 },
  },
};

describe('species defaults against what was read', () => {
  for (const [species, { source, values }] of Object.entries(published)) {
    it(`${species}: ${source}`, () => {
      for (const [column, value] of Object.entries(values)) {
        const [least, most] = typeof value === 'number' ? [value, value] : value;
        const cell = rows.get(species)?.[column];
        assert.ok(cell !== undefined && cell !== '' && Number(cell) >= least && Number(cell) <= most, `${column} ${cell}`);
      }
    });
  }
});

describe('zero temperatures reckoned from two published durations', () => {
  /** Where the rate is nothing when it is linear in the temperature (thermal time). */
  function zeroOf(cold: readonly [temperature: number, hours: number], warm: readonly [temperature: number, hours: number]): number {
    return (cold[0] * cold[1] - warm[0] * warm[1]) / (cold[1] - warm[1]);
  }

  it('neon tetra: 38-40 h at 18 °C and 24-26 h at 26 °C (source above)', () => {
    assert.equal(zeroOf([18, 39], [26, 25]).toFixed(1), rows.get('neon-tetra')?.['zero_temp_c']);
  });

  // Korzelecka-Orkisz et al. 2012, Early ontogenesis of the angelfish, discovery.researcher.life: 1288 h at 28 °C, which can only be degree-hours.
  it('angelfish: 72 h at 24 °C (Çelik 2014) and 1288 degree-hours at 28 °C (Korzelecka-Orkisz 2012)', () => {
    assert.equal(zeroOf([24, 72], [28, 1288 / 28]).toFixed(0), rows.get('angelfish')?.['zero_temp_c']);
  });
});

describe('growth of the profiles against what was read', () => {
  /** Von Bertalanffy from the hatch length at day 0, through the sale length at sale_d. */
  function lengthAt(species: string, day: number): number {
    const row = rows.get(species);
    const [start, sale, most, days] = ['hatch_mm', 'sale_mm', 'max_mm', 'sale_d'].map((column) => Number(row?.[column])) as [number, number, number, number];
    return most - (most - start) * Math.exp((Math.log((most - sale) / (most - start)) * day) / days);
  }

  // Total lengths but for the rainbowfish (standard) and the gourami (body), whose total length is greater by about a sixth (from memory).
  const cases: readonly (readonly [species: string, day: number, mm: number, source: string])[] = [
    ['golden-dwarf-cichlid', 18, 9.6, 'Nannacara anomala, Neotropical Ichthyology'],
    ['serpae-tetra', 29, 10.7, 'Çelik and Cirik 2019'],
    ['rosy-barb', 30, 3.8346 * Math.exp(0.0313 * 30), 'Sepil et al. 2025: y = 3.8346 e^(0.0313 x)'],
    ['three-spot-gourami', 40, 20.4 * (7 / 6), 'Morioka et al. 2012'],
    ['murray-rainbowfish', 32, 13.86 * (7 / 6), 'Mar. Freshw. Res. 46:475'],
    ['murray-rainbowfish', 72, 21 * (7 / 6), 'Mar. Freshw. Res. 46:475'],
  ];
  for (const [species, day, mm, source] of cases) {
    it(`${species} at ${day} days: ${source}`, () => {
      const length = lengthAt(species, day);
      assert.ok(Math.abs(length / mm - 1) <= 0.2, `${length.toFixed(1)} instead of ${mm.toFixed(1)} mm`);
    });
  }
});
