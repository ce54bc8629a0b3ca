const held: object[] = [];

/**
 * Holds one object of a class of which all others only live while something is worked out. Without it V8 throws away what
 * it has compiled for that class whenever a full garbage collection finds no object of it, and the next change runs slowly
 * until it is compiled again.
 */
export function holdOne(object: object): void {
  held.push(object);
}
