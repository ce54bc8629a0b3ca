import type { SheetFile } from '../records/sheetFile';
import type { Found } from './found';
import { askAll, NOTHING } from './foundProblems';
import type { FoundProblems } from './foundProblems';
import { fishRules, jobRules, speciesRules } from './rules/registry';
import type { PlanView } from './states';

type SheetRules = readonly ((file: SheetFile, view: PlanView) => readonly Found[])[];

/** What the rules find about sheets as a whole. */
export class SheetProblems {
  readonly #view: PlanView;
  readonly #problems: FoundProblems;
  readonly #found = new Map<string, readonly Found[]>();

  constructor(view: PlanView, problems: FoundProblems) {
    this.#view = view;
    this.#problems = problems;
  }

  /** `isDescentOther`: some fish have other ancestors now, whatever file says so. */
  refresh(isDescentOther: boolean, touched: Set<string>): void {
    this.#ask('maintenance.csv', jobRules, touched);
    if (isDescentOther || touched.has('fish.csv')) this.#ask('fish.csv', fishRules, touched);
    if (touched.has('species.csv')) this.#ask('species.csv', speciesRules, touched);
  }

  #ask(path: string, rules: SheetRules, touched: Set<string>): void {
    const file = this.#view.records.file(path);
    const found = file === undefined ? NOTHING : askAll(rules, file, this.#view);
    this.#problems.replace(this.#found.get(path) ?? NOTHING, found, touched);
    this.#found.set(path, found);
  }
}
