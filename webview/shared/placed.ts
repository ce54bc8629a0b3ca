import { noChange } from 'lit-html';
import { Directive, directive, PartType } from 'lit-html/directive.js';
import type { ElementPart, PartInfo } from 'lit-html/directive.js';

/** Where an element lies: CSS lengths by property. */
export type Placement = Readonly<Partial<Record<'left' | 'top' | 'width' | 'height' | 'transform', string>>>;

/** Sets style properties one by one, since the policy of web views lets no style attribute in. */
class Placed extends Directive {
  #last: Placement = {};

  constructor(info: PartInfo) {
    super(info);
    if (info.type !== PartType.ELEMENT) throw new Error('placed stands in the tag of an element');
  }

  override update(part: ElementPart, [placement]: [Placement]): unknown {
    const { style } = part.element as HTMLElement;
    for (const [name, value] of Object.entries(placement)) if (this.#last[name as keyof Placement] !== value) style.setProperty(name, value);
    this.#last = placement;
    return noChange;
  }

  /** Nothing is drawn where there is no document. */
  override render(...[]: [Placement]): unknown {
    return noChange;
  }
}

/** `<div ${placed({ left: '10px' })}>` */
export const placed = directive(Placed);
